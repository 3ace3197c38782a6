package org.benchstroke.io.modbus;

import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;

/** A Modbus instrument with every role, on an invented device in virtual time. */
final class ModbusRig {
  static final int UNIT = 17;

  static final Map<Role, Register> REGISTERS =
      Map.of(
          Role.POSITION_TRANSMITTER, input(0),
          Role.ANGLE_REFERENCE, input(2),
          Role.LOOP_METER, input(4),
          Role.MOTOR_POWER, bit(Register.Table.COIL, 0));

  static final Map<LimitSwitch, Register> SWITCHES =
      Map.of(
          LimitSwitch.CLOSED, bit(Register.Table.DISCRETE, 10),
          LimitSwitch.CLOSED_AUXILIARY, bit(Register.Table.DISCRETE, 11),
          LimitSwitch.OPEN, bit(Register.Table.DISCRETE, 13));

  final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  final FakeModbusBox box = new FakeModbusBox();
  final FakePeer peer;
  final ModbusInstrument instrument;

  /** Over Modbus TCP. */
  ModbusRig() {
    this(false, points(SWITCHES));
  }

  ModbusRig(boolean rtu, ModbusPoints points) {
    peer = new FakePeer(clock, rtu ? box::answerRtu : box::answer);
    ModbusLine line =
        rtu
            ? new ModbusRtuLine(peer, Replay.ENDPOINT, RtuTiming.NONE, clock)
            : new ModbusTcpLine(peer, Replay.ENDPOINT, clock);
    instrument = new ModbusInstrument("input module", line, points);
  }

  /** A source of 0 to 24 mA in µA, with an output coil. */
  static ModbusPoints source(boolean several) {
    return new ModbusPoints(
        UNIT,
        Map.of(
            Role.SIGNAL_SOURCE,
            new Register(
                Register.Table.HOLDING, 20, Register.Type.U16, Register.Order.ABCD, 0.001, 0.0)),
        Map.of(),
        Optional.empty(),
        Map.of(Role.SIGNAL_SOURCE, channel("mA", 0.0, 24.0)),
        SignalRange.FOUR_TO_TWENTY,
        new SourceWiring(several, Optional.of(bit(Register.Table.COIL, 3))),
        Optional.empty());
  }

  static ModbusPoints points(Map<LimitSwitch, Register> switches) {
    return new ModbusPoints(
        UNIT,
        REGISTERS,
        switches,
        Optional.of(
            new Register(
                Register.Table.HOLDING, 100, Register.Type.U32, Register.Order.ABCD, 1.0, 0.0)),
        Map.of(
            Role.POSITION_TRANSMITTER, channel("mA", 3.8, 20.5),
            Role.ANGLE_REFERENCE, channel("deg", -10.0, 100.0),
            Role.LOOP_METER, channel("mA", 0.0, 24.0)),
        SignalRange.FOUR_TO_TWENTY);
  }

  static Register bit(Register.Table table, int address) {
    return new Register(table, address, Register.Type.BIT, Register.Order.ABCD, 1.0, 0.0);
  }

  static Channel channel(String unit, double low, double high) {
    return new Channel(
        unit,
        new Accuracy(0.02, 0.0, 0.0, 0.001),
        0.001,
        OptionalDouble.of(low),
        OptionalDouble.of(high));
  }

  private static Register input(int address) {
    return new Register(
        Register.Table.INPUT, address, Register.Type.F32, Register.Order.ABCD, 1.0, 0.0);
  }
}
