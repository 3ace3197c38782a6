package org.benchstroke.instrument.modbus;

import org.benchstroke.clock.VirtualClock;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.MotorPower;
import org.benchstroke.instrument.contract.MotorPowerContract;
import org.benchstroke.transport.FakePeer;

class ModbusRtuMotorPowerContractTest implements MotorPowerContract {
  private final ModbusRig rig = new ModbusRig(true, ModbusRig.points(ModbusRig.SWITCHES));

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
