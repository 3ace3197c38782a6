package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Snapshot;
import org.benchstroke.io.instrument.SnapshotReader;

/**
 * Reads roles of one unit together. Neighbours in a table come by one request and so share one
 * instant; else each reading has the stamps of its own request. The runner's thread owns it.
 */
final class ModbusSnapshots implements SnapshotReader {
  static final Set<Role> SAMPLED =
      EnumSet.of(Role.POSITION_TRANSMITTER, Role.ANGLE_REFERENCE, Role.SWITCHES, Role.SUPPLY_METER);

  private final ModbusPoints points;
  private final StaleWatch watch;
  private final Set<Role> roles;
  private final BlockReader reader;

  private ModbusSnapshots(
      ModbusUnit unit, ModbusPoints points, StaleWatch watch, Collection<Role> roles) {
    this.points = points;
    this.watch = watch;
    this.roles = Collections.unmodifiableSet(EnumSet.copyOf(roles));
    this.reader = new BlockReader(unit, registers(points, roles));
  }

  /** One role by itself. */
  static ModbusSnapshots of(ModbusUnit unit, ModbusPoints points, StaleWatch watch, Role role) {
    return new ModbusSnapshots(unit, points, watch, Set.of(role));
  }

  /**
   * Every role that is sampled. The loop, which is not, comes along where it costs no further
   * request.
   *
   * @throws IllegalArgumentException if it plays none of them
   */
  static ModbusSnapshots of(ModbusUnit unit, ModbusPoints points, StaleWatch watch) {
    List<Role> sampled = new ArrayList<>(points.roles());
    sampled.retainAll(SAMPLED);
    ModbusSnapshots without = new ModbusSnapshots(unit, points, watch, sampled);
    if (!points.roles().contains(Role.LOOP_METER)) {
      return without;
    }
    sampled.add(Role.LOOP_METER);
    ModbusSnapshots with = new ModbusSnapshots(unit, points, watch, sampled);
    return with.reader.requests() == without.reader.requests() ? with : without;
  }

  private static List<Register> registers(ModbusPoints points, Collection<Role> roles) {
    List<Register> registers = new ArrayList<>();
    for (Role role : roles) {
      if (role == Role.SWITCHES) {
        registers.addAll(points.switches().values());
      } else {
        registers.addAll(points.registers().get(role).parts());
      }
    }
    return registers;
  }

  @Override
  public Set<Role> roles() {
    return roles;
  }

  @Override
  public Snapshot take(Deadline deadline) throws InstrumentException {
    return new ImageSnapshot(reader.read(deadline));
  }

  private final class ImageSnapshot implements Snapshot {
    private final Image image;

    ImageSnapshot(Image image) {
      this.image = image;
    }

    @Override
    public Reading<Position> position() throws InstrumentException {
      Image.Measurement m = measured(Role.POSITION_TRANSMITTER);
      boolean milliamps = points.channels().get(Role.POSITION_TRANSMITTER).unit().equals("mA");
      Position position =
          milliamps
              ? points.feedback().positionAt(Current.ofMilliamps(m.value()))
              : Position.ofPercent(m.value());
      return m.as(position, doubts(Role.POSITION_TRANSMITTER, m));
    }

    @Override
    public Reading<Angle> angle() throws InstrumentException {
      Image.Measurement m = measured(Role.ANGLE_REFERENCE);
      return m.as(Angle.ofDegrees(m.value()), doubts(Role.ANGLE_REFERENCE, m));
    }

    @Override
    public Reading<Current> loop() throws InstrumentException {
      Image.Measurement m = measured(Role.LOOP_METER);
      return m.as(Current.ofMilliamps(m.value()), doubts(Role.LOOP_METER, m));
    }

    @Override
    public Reading<Voltage> supply() throws InstrumentException {
      Image.Measurement m = measured(Role.SUPPLY_METER);
      return m.as(Voltage.ofVolts(m.value()), doubts(Role.SUPPLY_METER, m));
    }

    @Override
    public Reading<Map<LimitSwitch, Boolean>> switches() {
      Map<LimitSwitch, Boolean> made = new EnumMap<>(LimitSwitch.class);
      // Scale −1 with offset 1 turns a contact round that is open when the switch is made.
      points
          .switches()
          .forEach((each, bit) -> made.put(each, Registers.value(bit, image.data(bit)) >= 0.5));
      StringBuilder raw = new StringBuilder();
      Set<Doubt> doubts = EnumSet.noneOf(Doubt.class);
      long asked = Long.MAX_VALUE;
      long answered = Long.MIN_VALUE;
      for (BlockReader.Part part : image.partsOf(points.switches().values())) {
        asked = Math.min(asked, part.answer().askedNanos());
        answered = Math.max(answered, part.answer().answeredNanos());
        doubts.addAll(part.answer().doubts());
        raw.append(raw.length() == 0 ? "" : "; ").append(part.answer().note());
        raw.append(part.request().brief()).append(" -> ").append(Hex.of(part.answer().data()));
      }
      return new Reading<>(
          Collections.unmodifiableMap(made), doubts, raw.toString(), asked, answered);
    }

    private Image.Measurement measured(Role role) throws InstrumentException {
      Register register = points.registers().get(role);
      watch.check(register, image);
      return image.measured(register);
    }

    private Set<Doubt> doubts(Role role, Image.Measurement measured) {
      return points.channels().get(role).doubtsOf(measured.value());
    }
  }
}
