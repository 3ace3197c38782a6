package org.benchstroke.io.line;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.contract.LoopMeterContract;
import org.benchstroke.io.transport.FakePeer;

class LineLoopMeterContractTest implements LoopMeterContract {
  private final LineRig rig = new LineRig(LineRig.SOURCE);
  private final LoopMeter role = rig.instrument.loopMeter().orElseThrow();

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
  public LoopMeter role() {
    return role;
  }

  @Override
  public void truth(double value) {
    rig.box.measures(value);
  }

  @Override
  public double[] ends() {
    return new double[] {0.0, 30.0};
  }
}
