package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.contract.MotorPowerContract;
import org.benchstroke.io.transport.FakePeer;

class ModbusMotorPowerContractTest implements MotorPowerContract {
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
  public MotorPower role() {
    return rig.instrument.motorPower().orElseThrow();
  }

  @Override
  public boolean truth() {
    return rig.box.bit(0);
  }

  @Override
  public void jam() {
    rig.box.jam();
  }
}
