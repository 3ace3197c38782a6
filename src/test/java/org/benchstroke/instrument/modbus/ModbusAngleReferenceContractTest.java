package org.benchstroke.instrument.modbus;

import org.benchstroke.clock.VirtualClock;
import org.benchstroke.instrument.AngleReference;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.contract.AngleReferenceContract;
import org.benchstroke.transport.FakePeer;

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
