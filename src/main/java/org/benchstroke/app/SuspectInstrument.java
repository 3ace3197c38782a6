package org.benchstroke.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.statistics.LookBack;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.statistics.LookBack.Found;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind.KnownBy;
import org.benchstroke.unit.UnitType;

/**
 * An instrument, or a whole bench, that was found to be off, and by how much: judges again what was
 * known by it. Immutable, safe for any thread.
 *
 * <p>The error is taken to be as large as was found at every reading. A time is known by the clock:
 * that a position is off by a constant doesn't move it.
 *
 * @param serial of the instrument; empty for every instrument of the bench
 * @param size how much it was off, in the unit, 0 or more
 * @param unit of the size
 */
public record SuspectInstrument(Optional<String> serial, double size, Unit unit) {
  private static final Pattern WRITTEN =
      Pattern.compile("\\s*([+-]?[0-9]+(?:\\.[0-9]+)?)\\s*(mA|%|deg|°|V|s)\\s*");
  private static final String SUSPECT = "suspect";

  /** In what an error may be found. */
  public enum Unit {
    MILLIAMP("mA"),
    /** Of travel. */
    PERCENT("%"),
    DEGREE("deg"),
    VOLT("V"),
    SECOND("s");

    private final String text;

    Unit(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }

    private static Unit of(String text) {
      for (Unit unit : values()) {
        if (unit.text.equals(text)) {
          return unit;
        }
      }
      return DEGREE;
    }
  }

  /**
   * A measure with what becomes of its word.
   *
   * @param judged as it stands
   * @param shift how far the error may move it, in its unit
   * @param found what becomes of it
   */
  public record Again(Judgement judged, double shift, Found<Word> found) {}

  /**
   * By what a person writes: "0.02 mA", "0.1 %", "0.5 deg".
   *
   * @throws WrongRequest if it is no error
   */
  public static SuspectInstrument of(Optional<String> serial, String option, String text)
      throws WrongRequest {
    Matcher written = WRITTEN.matcher(text);
    if (!written.matches()) {
      throw new WrongRequest(
          option
              + ": found \""
              + text
              + "\", allowed is a number with mA, % (of travel), deg, V or s: 0.02mA");
    }
    double size = Math.abs(Double.parseDouble(written.group(1)));
    return new SuspectInstrument(serial, size, Unit.of(written.group(2)));
  }

  /** Every measure of a run that was judged and is known by it; empty if none is. */
  public List<Again> again(JudgedRun run) {
    List<Again> all = new ArrayList<>();
    for (Judgement judged : run.judgements()) {
      if (judged.limit().isPresent() && judged.measure().value().isPresent()) {
        double shift = shift(run, judged.measure());
        if (shift > 0.0) {
          all.add(new Again(judged, shift, found(run.unit(), judged, shift)));
        }
      }
    }
    return all;
  }

  /** What becomes of a run: the worst of its measures. */
  public static Fate fate(List<Again> all) {
    Fate worst = Fate.NOT_TOUCHED;
    for (Again each : all) {
      worst = rank(each.found().fate()) > rank(worst) ? each.found().fate() : worst;
    }
    return worst;
  }

  /** The worse it is, the higher. */
  public static int rank(Fate fate) {
    return switch (fate) {
      case NOT_TOUCHED -> 0;
      case KEPT -> 1;
      case UNDECIDED -> 2;
      case CHANGED -> 3;
    };
  }

  private static Found<Word> found(UnitType unit, Judgement judged, double shift) {
    Measure measure = judged.measure();
    double value = measure.value().orElseThrow();
    LookBack.Measured<Word> measured =
        new LookBack.Measured<>(
            measure.kind().key(),
            SUSPECT,
            value,
            best(judged.limit().orElseThrow()),
            v -> measure.word(unit, v - value).orElseThrow());
    return LookBack.of(List.of(measured), new LookBack.FoundError(SUSPECT, shift)).found().get(0);
  }

  private static double best(Limit limit) {
    if (limit.low().isEmpty()) {
      return Double.NEGATIVE_INFINITY;
    }
    return limit.high().isEmpty()
        ? Double.POSITIVE_INFINITY
        : (limit.low().getAsDouble() + limit.high().getAsDouble()) / 2.0;
  }

  /** How far the error moves a measure, in its unit; 0 if it is known by something else. */
  private double shift(JudgedRun run, Measure measure) {
    double largest = 0.0;
    for (InstrumentSpec spec : run.bench().instruments()) {
      if (serial.isEmpty() || serial.get().equals(spec.serial())) {
        for (Role role : spec.roles()) {
          largest = Math.max(largest, shift(run.unit(), role, measure));
        }
      }
    }
    return largest;
  }

  private double shift(UnitType type, Role role, Measure measure) {
    KnownBy known = measure.kind().knownBy();
    if (known == KnownBy.CLOCK) {
      return unit == Unit.SECOND && measure.kind().unit().equals("s") ? size : 0.0;
    }
    if (known == KnownBy.METER) {
      boolean volts = unit == Unit.VOLT && measure.kind().unit().equals("V");
      return role == Role.SUPPLY_METER && volts ? size : 0.0;
    }
    if (!touches(role, measure.truth())) {
      return 0.0;
    }
    double percent = percent(type, role, measure);
    return switch (measure.kind().unit()) {
      case "%" -> percent;
      case "°" -> percent / 100.0 * type.travelDegrees();
      default -> 0.0;
    };
  }

  /** A setpoint that was off moves what is compared with it, by whatever that is known. */
  private static boolean touches(Role role, Truth truth) {
    return switch (role) {
      case SIGNAL_SOURCE, LOOP_METER -> true;
      case POSITION_TRANSMITTER -> truth == Truth.FEEDBACK;
      case ANGLE_REFERENCE -> truth == Truth.STEM;
      default -> false;
    };
  }

  /** The error in % of travel; 0 if it is of another unit than positions are. */
  private double percent(UnitType type, Role role, Measure measure) {
    return switch (unit) {
      case PERCENT -> size;
      case DEGREE -> size / type.travelDegrees() * 100.0;
      case MILLIAMP -> size * percentPerMilliamp(type, role, measure);
      case VOLT, SECOND -> 0.0;
    };
  }

  private static double percentPerMilliamp(UnitType type, Role role, Measure measure) {
    if (!Set.of(Role.SIGNAL_SOURCE, Role.LOOP_METER).contains(role)) {
      return Math.abs(type.feedback().percentPerMilliamp());
    }
    OptionalDouble setpoint = measure.place().setpointPercent();
    if (setpoint.isPresent()) {
      return Math.abs(type.percentPerMilliampAt(Position.ofPercent(setpoint.getAsDouble())));
    }
    double steepest = 0.0;
    for (double at = 0.0; at <= 100.0; at += 5.0) {
      steepest = Math.max(steepest, Math.abs(type.percentPerMilliampAt(Position.ofPercent(at))));
    }
    return steepest;
  }
}
