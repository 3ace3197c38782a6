package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.contract.LoopMeterContract;
import org.benchstroke.io.transport.FakePeer;

class ModbusRtuLoopMeterContractTest implements LoopMeterContract {
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
  public LoopMeter role() {
    return rig.instrument.loopMeter().orElseThrow();
  }

  @Override
  public void truth(double value) {
    rig.box.holds(4, (float) value);
  }

  @Override
  public double[] ends() {
    return new double[] {0.0, 24.0};
  }
}
