package org.benchstroke.io.line;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.contract.AngleReferenceContract;
import org.benchstroke.io.transport.FakePeer;

class LineAngleReferenceContractTest implements AngleReferenceContract {
  private final LineRig rig = new LineRig(LineRig.INPUT);
  private final AngleReference role = rig.instrument.angleReference().orElseThrow();

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
  public AngleReference role() {
    return role;
  }

  @Override
  public void truth(double value) {
    rig.box.angle(value);
  }

  @Override
  public double[] ends() {
    return new double[] {-10.0, 100.0};
  }
}
