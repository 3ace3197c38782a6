package org.benchstroke.io.line;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.contract.PositionTransmitterContract;
import org.benchstroke.io.transport.FakePeer;

class LinePositionTransmitterContractTest implements PositionTransmitterContract {
  private final LineRig rig = new LineRig(LineRig.INPUT);
  private final PositionTransmitter role = rig.instrument.positionTransmitter().orElseThrow();

  @Override
  public VirtualClock clock() {
    return rig.clock;
  }

  @Override
  public FakePeer peer() {
    return rig.peer;
  }

  @Override
  public Instrument instrument() {
    return rig.instrument;
  }

  @Override
  public PositionTransmitter role() {
    return role;
  }

  @Override
  public void truth(double value) {
    rig.box.position(4.0 + 0.16 * value);
  }

  @Override
  public double[] ends() {
    return new double[] {-3.125, 112.5};
  }
}
