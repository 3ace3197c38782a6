package org.benchstroke.instrument.modbus;

import java.util.Set;
import org.benchstroke.clock.VirtualClock;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.SwitchReader;
import org.benchstroke.instrument.contract.SwitchReaderContract;
import org.benchstroke.transport.FakePeer;

class ModbusSwitchReaderContractTest implements SwitchReaderContract {
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
  public SwitchReader role() {
    return rig.instrument.switchReader().orElseThrow();
  }

  @Override
  public Set<LimitSwitch> wired() {
    return ModbusRig.SWITCHES.keySet();
  }

  @Override
  public void truth(Set<LimitSwitch> made) {
    ModbusRig.SWITCHES.forEach((key, r) -> rig.box.bit(r.address(), made.contains(key)));
  }
}
