package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusInstrument;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.unit.UnitType;

/**
 * Reads a value's raw registers at known points: where the unit was driven to, or where a person
 * read a display. One thread.
 */
public final class MapSurvey {
  /** A driven unit rests this near to its setpoint if it is sound. Common practice, no source. */
  private static final double DRIVEN_SHARE = 0.02;

  /** A display that was read while the register was. Common practice, no source. */
  private static final double TYPED_SHARE = 0.01;

  private static final int READINGS = 8;
  private static final double TRAVEL_FACTOR = 1.5;

  private final HandBench hands;
  private final Role role;
  private final InstrumentSpec spec;
  private final Register inFile;
  private Optional<RegisterWindow> window = Optional.empty();

  /**
   * What was read.
   *
   * @param end how the work ended; {@code DONE} if all points were read
   * @param question what is to be inferred; empty if not all points were read
   */
  public record Read(HandResult end, Optional<MapQuestion> question) {}

  /** Asks a person for the value that is shown now. */
  public interface Display {
    /** The value in the channel's unit; empty ends the work. */
    OptionalDouble value(int point, int points, String unit);
  }

  /**
   * Reads nothing yet.
   *
   * @param role the role whose value is in question; see {@link #hindrance}
   */
  public MapSurvey(HandBench hands, Role role) {
    this.hands = hands;
    this.role = role;
    this.spec = hands.file().playing(role).orElseThrow();
    this.inFile = spec.talk(ModbusSettings.class).orElseThrow().registers().get(role);
  }

  /** Why a role's map can't be worked out on this bench; empty if it can. */
  public static Optional<String> hindrance(BenchFile file, Role role) {
    boolean measures =
        role == Role.POSITION_TRANSMITTER
            || role == Role.ANGLE_REFERENCE
            || role == Role.LOOP_METER;
    if (!measures) {
      return Optional.of("a " + role.key() + " has no value that registers could hold");
    }
    Optional<InstrumentSpec> spec = file.playing(role);
    if (spec.isEmpty()) {
      return Optional.of("no instrument of the bench plays the role " + role.key());
    }
    return spec.get().talk(ModbusSettings.class).isEmpty()
        ? Optional.of(spec.get().name() + " does not speak Modbus, so it has no register map")
        : Optional.empty();
  }

  /** Drives the unit to each position, cautions first, and reads. Never throws. */
  public Read driven(List<Position> positions) {
    List<KnownPoint> points = new ArrayList<>();
    HandResult end =
        hands.carryOut(
            Set.of(spec.name()),
            () -> {
              findWindow();
              for (int i = 0; i < positions.size(); i++) {
                Position to = positions.get(i);
                double change = i == 0 ? 100.0 : to.percent() - positions.get(i - 1).percent();
                drive(to, change);
                points.add(point(expected(to), DRIVEN_SHARE));
              }
            });
    return read(end, points);
  }

  /** Reads at each point that a person types; sources nothing and moves nothing. Never throws. */
  public Read typed(int count, Display display) {
    List<KnownPoint> points = new ArrayList<>();
    HandResult end =
        hands.readOnly(
            () -> {
              findWindow();
              for (int i = 1; i <= count; i++) {
                OptionalDouble value = display.value(i, count, unitText());
                hands.checkStop();
                if (value.isEmpty()) {
                  throw new HandEnded(HandResult.How.STOPPED, "no value was typed");
                }
                points.add(point(value.getAsDouble(), TYPED_SHARE));
              }
            });
    return read(end, points);
  }

  private Read read(HandResult end, List<KnownPoint> points) {
    return new Read(
        end, end.how() == HandResult.How.DONE ? Optional.of(question(points)) : Optional.empty());
  }

  private MapQuestion question(List<KnownPoint> points) {
    RegisterWindow read = window.orElseThrow();
    Register there =
        new Register(
            read.table(),
            inFile.address(),
            inFile.type(),
            inFile.order(),
            inFile.scale(),
            inFile.offset());
    return new MapQuestion(there, read.first(), unitText(), low(), high(), points);
  }

  /** Waits for longer than the travel takes: the position itself can't be read yet. */
  private void drive(Position to, double changePercent) throws HandEnded {
    UnitType unit = hands.unit();
    double seconds =
        unit.practice().restEarliestSeconds()
            + TRAVEL_FACTOR * unit.travelSeconds(changePercent)
            + unit.restWindowSeconds(hands.file().samplePeriodSeconds());
    Current set = hands.apply(unit.currentAt(to)).value();
    hands.tell(
        "at "
            + set
            + " for "
            + to
            + "; waiting "
            + Numbers.fixed(seconds / hands.clock().pace(), 1)
            + " s until the unit is at rest");
    long end = hands.clock().nanos() + (long) (seconds * 1e9);
    while (hands.clock().nanos() < end) {
      hands.waitUntil(Math.min(end, hands.clock().nanos() + period()));
    }
    checkLoop(set);
  }

  /** If the current does not flow, the unit is not where it should be and the points are wrong. */
  private void checkLoop(Current set) throws HandEnded {
    if (role == Role.LOOP_METER || hands.bench().loopMeter().isEmpty()) {
      return;
    }
    try {
      Current loop = hands.bench().loopMeter().get().read(hands.deadline()).value();
      double allowed = DRIVEN_SHARE * Math.abs(hands.unit().signal().spanMilliamps());
      if (Math.abs(loop.minus(set).milliamps()) > allowed) {
        throw new HandEnded(
            HandResult.How.FAULT,
            "the loop carries " + loop + ", but " + set + " was set: put the loop right first");
      }
    } catch (InstrumentException e) {
      throw hands.lost(e);
    }
  }

  private void findWindow() throws HandEnded {
    try {
      window = RegisterWindow.find(instrument(), inFile, hands::deadline);
    } catch (InstrumentException e) {
      throw hands.lost(e);
    }
    if (window.isEmpty()) {
      throw new HandEnded(
          HandResult.How.FAULT,
          spec.name()
              + " has no register at or next to address "
              + inFile.address()
              + ", neither holding nor input: take the address from its manual");
    }
  }

  private KnownPoint point(double value, double share) throws HandEnded {
    List<List<Integer>> readings = new ArrayList<>();
    try {
      for (int i = 0; i < READINGS; i++) {
        Reading<List<Integer>> reading = window.orElseThrow().read(instrument(), hands.deadline());
        readings.add(reading.value());
        hands.waitUntil(hands.clock().nanos() + period());
      }
    } catch (InstrumentException e) {
      throw hands.lost(e);
    }
    return new KnownPoint(value, share * Math.abs(high() - low()), readings);
  }

  private ModbusInstrument instrument() {
    return hands.bench().instruments().stream()
        .filter(each -> each.name().equals(spec.name()))
        .map(ModbusInstrument.class::cast)
        .findFirst()
        .orElseThrow();
  }

  private long period() {
    return (long) (hands.file().samplePeriodSeconds() * 1e9);
  }

  private double low() {
    return expected(Position.ofPercent(0.0));
  }

  private double high() {
    return expected(Position.ofPercent(100.0));
  }

  private String unitText() {
    return spec.channels().get(role).unit();
  }

  /** What a sound unit's instrument shows at a position, in the channel's unit. */
  private double expected(Position position) {
    UnitType unit = hands.unit();
    return switch (role) {
      case LOOP_METER -> unit.currentAt(position).milliamps();
      case ANGLE_REFERENCE -> position.percent() / 100.0 * unit.travelDegrees();
      default ->
          unitText().equals("mA")
              ? unit.feedback().currentAt(position).milliamps()
              : position.percent();
    };
  }
}
