package org.benchstroke.io.modbus;

import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.contract.SignalSourceContract;
import org.benchstroke.io.transport.FakePeer;

class ModbusRtuSignalSourceContractTest implements SignalSourceContract {
  private final ModbusRig rig = new ModbusRig(true, ModbusRig.source(true));

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
  public SignalSource role() {
    return rig.instrument.signalSource().orElseThrow();
  }

  @Override
  public OptionalDouble truth() {
    return rig.box.bit(3)
        ? OptionalDouble.of(rig.box.register(20) / 1000.0)
        : OptionalDouble.empty();
  }

  @Override
  public void jam() {
    rig.box.jam();
  }
}
