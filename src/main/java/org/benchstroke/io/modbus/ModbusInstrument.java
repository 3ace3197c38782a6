package org.benchstroke.io.modbus;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.RolePlayer;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.SnapshotReader;
import org.benchstroke.io.instrument.SupplyMeter;
import org.benchstroke.io.instrument.SwitchReader;

/**
 * An instrument that is nothing but registers and bits. It plays each role for which it has a
 * register. The runner's thread owns it.
 */
public final class ModbusInstrument implements RolePlayer {
  private final ModbusUnit unit;
  private final ModbusPoints points;
  private final StaleWatch watch;
  private final Optional<ModbusPulse> pulse;

  /**
   * Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the line, maybe shared with other instruments
   * @param points what it holds
   */
  public ModbusInstrument(String name, ModbusLine line, ModbusPoints points) {
    this.unit = new ModbusUnit(name, line, points.unitId());
    this.points = points;
    this.watch = new StaleWatch(unit);
    this.pulse = points.keepAlive().map(each -> new ModbusPulse(unit, each));
  }

  @Override
  public String name() {
    return unit.name();
  }

  @Override
  public void connect(Deadline deadline) throws InstrumentException {
    unit.line().open(name(), deadline);
  }

  /** Its serial number alone: Modbus registers have no agreed place for more. */
  @Override
  public Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    if (points.serialNumber().isEmpty()) {
      return Optional.empty();
    }
    Register register = points.serialNumber().get();
    Image.Measurement serial =
        new BlockReader(unit, List.of(register)).read(deadline).measured(register);
    return Optional.of(new Identity("", "", Numbers.plain(serial.value()), "", serial.raw()));
  }

  @Override
  public void keepAlive(Deadline deadline) throws InstrumentException {
    if (pulse.isPresent()) {
      pulse.get().beat(deadline);
    }
  }

  @Override
  public void disconnect() {
    unit.line().close();
  }

  /** Present if it plays a role that is read with each sample. */
  public Optional<SnapshotReader> snapshots() {
    boolean sampled = ModbusSnapshots.SAMPLED.stream().anyMatch(this::plays);
    return sampled ? Optional.of(ModbusSnapshots.of(unit, points, watch)) : Optional.empty();
  }

  /** The role, if it has a register for it; likewise for each role below. */
  @Override
  public Optional<PositionTransmitter> positionTransmitter() {
    return reader(Role.POSITION_TRANSMITTER).map(r -> deadline -> r.take(deadline).position());
  }

  @Override
  public Optional<AngleReference> angleReference() {
    return reader(Role.ANGLE_REFERENCE).map(r -> deadline -> r.take(deadline).angle());
  }

  @Override
  public Optional<SupplyMeter> supplyMeter() {
    return reader(Role.SUPPLY_METER).map(r -> deadline -> r.take(deadline).supply());
  }

  @Override
  public Optional<LoopMeter> loopMeter() {
    return reader(Role.LOOP_METER).map(r -> deadline -> r.take(deadline).loop());
  }

  @Override
  public Optional<SwitchReader> switchReader() {
    return reader(Role.SWITCHES).map(r -> deadline -> r.take(deadline).switches());
  }

  @Override
  public Optional<SignalSource> signalSource() {
    return register(Role.SIGNAL_SOURCE)
        .map(
            r ->
                new ModbusSource(
                    unit, r, points.source(), points.channels().get(Role.SIGNAL_SOURCE), pulse));
  }

  @Override
  public Optional<MotorPower> motorPower() {
    return register(Role.MOTOR_POWER)
        .map(coil -> (on, deadline) -> CoilSwitch.set(unit, coil, on, deadline));
  }

  private boolean plays(Role role) {
    return points.roles().contains(role);
  }

  private Optional<SnapshotReader> reader(Role role) {
    return plays(role)
        ? Optional.of(ModbusSnapshots.of(unit, points, watch, role))
        : Optional.empty();
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
    ModbusAnswer answer = unit.ask(request, deadline);
    List<Integer> words = IntStream.range(0, count).mapToObj(answer::word).toList();
    String raw = request.brief() + " -> " + Hex.of(answer.data());
    return new Reading<>(words, answer.doubts(), raw, answer.askedNanos(), answer.answeredNanos());
  }

  private Optional<Register> register(Role role) {
    return Optional.ofNullable(points.registers().get(role));
  }
}
