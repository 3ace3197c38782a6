package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.contract.AngleReferenceContract;
import org.benchstroke.io.transport.FakePeer;

class ModbusAngleReferenceContractTest implements AngleReferenceContract {
  private final ModbusRig rig = new ModbusRig();

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
    return rig.instrument.angleReference().orElseThrow();
  }

  @Override
  public void truth(double value) {
    rig.box.holds(2, (float) value);
  }

  @Override
  public double[] ends() {
    return new double[] {-10.0, 100.0};
  }
}
