package org.benchstroke.instrument.modbus;

import org.benchstroke.clock.VirtualClock;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.LoopMeter;
import org.benchstroke.instrument.contract.LoopMeterContract;
import org.benchstroke.transport.FakePeer;

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
