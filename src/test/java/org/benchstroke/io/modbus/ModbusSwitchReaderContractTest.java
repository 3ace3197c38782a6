package org.benchstroke.io.modbus;

import java.util.Set;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.SwitchReader;
import org.benchstroke.io.instrument.contract.SwitchReaderContract;
import org.benchstroke.io.transport.FakePeer;

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
