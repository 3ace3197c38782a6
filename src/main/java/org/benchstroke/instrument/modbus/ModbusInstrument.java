package org.benchstroke.instrument.modbus;

import java.nio.ByteBuffer;
import java.nio.ShortBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.AngleReference;
import org.benchstroke.instrument.Identity;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.LoopMeter;
import org.benchstroke.instrument.MotorPower;
import org.benchstroke.instrument.PositionTransmitter;
import org.benchstroke.instrument.Quality;
import org.benchstroke.instrument.Reading;
import org.benchstroke.instrument.Role;
import org.benchstroke.instrument.SwitchReader;
import org.benchstroke.quantity.Angle;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;

/**
 * An instrument that is nothing but registers and bits. It plays each role for which it has a
 * register. The runner's thread owns it.
 */
public final class ModbusInstrument implements Instrument {
  private final String name;
  private final ModbusTcpLine line;
  private final ModbusPoints points;

  /**
   * Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection, maybe shared with other instruments
   * @param points what it holds
   */
  public ModbusInstrument(String name, ModbusTcpLine line, ModbusPoints points) {
    this.name = name;
    this.line = line;
    this.points = points;
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public void connect(Deadline deadline) throws InstrumentException {
    line.open(name, deadline);
  }

  /** Its serial number alone: Modbus registers have no agreed place for more. */
  @Override
  public Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    if (points.serialNumber().isEmpty()) {
      return Optional.empty();
    }
    Measured serial = measure(points.serialNumber().get(), deadline);
    return Optional.of(new Identity("", "", Numbers.plain(serial.value()), "", serial.raw()));
  }

  @Override
  public void disconnect() {
    line.close();
  }

  /** The role, if it has a register for it; likewise for each role below. */
  public Optional<PositionTransmitter> positionTransmitter() {
    return register(Role.POSITION_TRANSMITTER).map(r -> deadline -> position(r, deadline));
  }

  public Optional<AngleReference> angleReference() {
    return register(Role.ANGLE_REFERENCE)
        .map(
            r ->
                deadline -> {
                  Measured m = measure(r, deadline);
                  return m.as(Angle.ofDegrees(m.value()), quality(Role.ANGLE_REFERENCE, m));
                });
  }

  public Optional<LoopMeter> loopMeter() {
    return register(Role.LOOP_METER)
        .map(
            r ->
                deadline -> {
                  Measured m = measure(r, deadline);
                  return m.as(Current.ofMilliamps(m.value()), quality(Role.LOOP_METER, m));
                });
  }

  /** Present if at least one switch is wired. */
  public Optional<SwitchReader> switchReader() {
    return points.switches().isEmpty()
        ? Optional.empty()
        : Optional.of(new ModbusSwitches(name, line, points.unitId(), points.switches()));
  }

  public Optional<MotorPower> motorPower() {
    return register(Role.MOTOR_POWER).map(coil -> (on, deadline) -> switchCoil(coil, on, deadline));
  }

  /**
   * Reads registers as they stand, whatever they mean.
   *
   * @param table holding or input
   * @return 16 bits each, 0 to 65535, in the order of their addresses
   */
  public Reading<List<Integer>> peek(
      Register.Table table, int address, int count, Deadline deadline) throws InstrumentException {
    ModbusRequest request = ModbusRequest.read(table, address, count);
    ModbusAnswer answer = line.exchange(name, points.unitId(), request, deadline);
    List<Integer> words = new ArrayList<>();
    ShortBuffer all = ByteBuffer.wrap(answer.data()).asShortBuffer();
    while (all.hasRemaining()) {
      words.add(Short.toUnsignedInt(all.get()));
    }
    String raw = request.brief() + " -> " + Hex.of(answer.data());
    return new Reading<>(
        List.copyOf(words), Quality.GOOD, raw, answer.askedNanos(), answer.answeredNanos());
  }

  private Optional<Register> register(Role role) {
    return Optional.ofNullable(points.registers().get(role));
  }

  private Reading<Position> position(Register register, Deadline deadline)
      throws InstrumentException {
    Measured m = measure(register, deadline);
    boolean milliamps = points.channels().get(Role.POSITION_TRANSMITTER).unit().equals("mA");
    Position position =
        milliamps
            ? points.feedback().positionAt(Current.ofMilliamps(m.value()))
            : Position.ofPercent(m.value());
    return m.as(position, quality(Role.POSITION_TRANSMITTER, m));
  }

  private Quality quality(Role role, Measured measured) {
    return points.channels().get(role).qualityAt(measured.value());
  }

  /** Writes once, then reads back: an echo only says that the write was understood. */
  private void switchCoil(Register coil, boolean on, Deadline deadline) throws InstrumentException {
    boolean bit = Registers.bytes(coil, on ? 1.0 : 0.0)[0] == 1;
    line.exchange(name, points.unitId(), ModbusRequest.writeCoil(coil.address(), bit), deadline);
    ModbusRequest back = ModbusRequest.read(coil.table(), coil.address(), 1);
    ModbusAnswer answer = line.exchange(name, points.unitId(), back, deadline);
    if (answer.bit(0) != bit) {
      throw line.badReply(
          name,
          exchange(back, answer),
          "coil " + coil.address() + " was set to " + word(bit) + " but reads " + word(!bit));
    }
  }

  private Measured measure(Register register, Deadline deadline) throws InstrumentException {
    ModbusRequest request =
        ModbusRequest.read(register.table(), register.address(), register.type().words());
    ModbusAnswer answer = line.exchange(name, points.unitId(), request, deadline);
    double number = Registers.number(register, answer.data());
    double value = Registers.value(register, answer.data());
    if (!Double.isFinite(value)) {
      throw line.badReply(
          name,
          exchange(request, answer),
          "the float in "
              + register.table().key()
              + " "
              + register.address()
              + " read as "
              + register.order()
              + " is "
              + (Double.isNaN(number) ? "not a number" : "infinite"));
    }
    String raw =
        request.brief() + " -> " + Hex.of(answer.data()) + " = " + shortest(register, number);
    return new Measured(value, raw, answer);
  }

  private String exchange(ModbusRequest request, ModbusAnswer answer) {
    return "unit id " + points.unitId() + ": " + request.brief() + " -> " + Hex.of(answer.data());
  }

  private static String shortest(Register register, double number) {
    return register.type() == Register.Type.F32
        ? Float.toString((float) number)
        : Numbers.plain(number);
  }

  private static String word(boolean bit) {
    return bit ? "1" : "0";
  }

  /** A value in its unit, not yet in its type. */
  private record Measured(double value, String raw, ModbusAnswer answer) {
    <T> Reading<T> as(T typed, Quality quality) {
      return new Reading<>(typed, quality, raw, answer.askedNanos(), answer.answeredNanos());
    }
  }
}
