package org.benchstroke.io.modbus;

import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.contract.PositionTransmitterContract;
import org.benchstroke.io.transport.FakePeer;

class ModbusPositionTransmitterContractTest implements PositionTransmitterContract {
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
  public PositionTransmitter role() {
    return rig.instrument.positionTransmitter().orElseThrow();
  }

  @Override
  public void truth(double value) {
    rig.box.holds(0, (float) (4.0 + value / 100.0 * 16.0));
  }

  @Override
  public double[] ends() {
    return new double[] {(3.8 - 4.0) / 16.0 * 100.0, (20.5 - 4.0) / 16.0 * 100.0};
  }
}
