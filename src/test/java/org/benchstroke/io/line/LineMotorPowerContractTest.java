package org.benchstroke.io.line;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.contract.MotorPowerContract;
import org.benchstroke.io.transport.FakePeer;

class LineMotorPowerContractTest implements MotorPowerContract {
  private final LineRig rig = new LineRig(LineRig.INPUT);
  private final MotorPower role = rig.instrument.motorPower().orElseThrow();

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
  public MotorPower role() {
    return role;
  }

  @Override
  public boolean truth() {
    return rig.box.relay();
  }

  @Override
  public void jam() {
    rig.box.jam();
  }
}
