package org.benchstroke.unit;

import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.TomlSection;

/**
 * What the motor may do: what its data sheet says, and where that says nothing, what usual motors
 * bear. The runner keeps to it.
 *
 * @param startsPerHour starts an hour, at most, as stated
 * @param onRatioPercent time in motion over all time, %, at most, as stated
 */
public record Duty(OptionalDouble startsPerHour, OptionalDouble onRatioPercent) {
  /**
   * A usual limit for modulating units, starts an hour. Common practice, no source.
   *
   * <p>ISO 22153 is said to ask as much of its class C up to 125 Nm; that was not seen in print.
   */
  public static final double USUAL_STARTS_PER_HOUR = 1200.0;

  /** A motor for short times may run so long from cold, s. Common practice, no source. */
  public static final double USUAL_RUN_SECONDS = 900.0;

  /** And after that so much of the time, %. Common practice, no source. */
  public static final double USUAL_ON_RATIO_PERCENT = 25.0;

  /**
   * Starts are counted over so long, s: longer, and an hour's starts could be made in minutes. The
   * time after which IEC 60034-1 lets a cycle of load repeat where none is stated, from memory.
   */
  public static final double WINDOW_SECONDS = 600.0;

  /** A unit that is corrected once or twice does not hunt. */
  public static final int FEW_STARTS = 5;

  /** Nothing is stated: the usual limits hold. */
  public static final Duty UNSTATED = new Duty(OptionalDouble.empty(), OptionalDouble.empty());

  /** What has no motor may move as it likes. */
  public static final Duty NO_MOTOR =
      new Duty(OptionalDouble.of(Double.POSITIVE_INFINITY), OptionalDouble.of(100.0));

  static Duty read(TomlSection section) {
    Duty duty =
        new Duty(
            section.optionalNumber("starts_per_hour", 1, 100_000, "starts an hour"),
            section.optionalNumber("on_ratio_pct", 1, 100, "% of the time"));
    section.noOtherKeys();
    return duty;
  }

  /**
   * The rest that a unit must still have before it moves again, for the time that it was in motion,
   * s; 0 or less if none.
   *
   * @param movedSeconds how long it moved, s
   * @param watchedSeconds in how much time, s
   */
  public double restSeconds(double movedSeconds, double watchedSeconds) {
    if (onRatioPercent.isPresent()) {
      return movedSeconds * 100.0 / onRatioPercent.getAsDouble() - watchedSeconds;
    }
    return movedSeconds <= USUAL_RUN_SECONDS
        ? 0.0
        : movedSeconds * 100.0 / USUAL_ON_RATIO_PERCENT - watchedSeconds;
  }

  /**
   * More starts than these within a time are too many; a few are always allowed.
   *
   * @param seconds the time, s
   */
  public double startsAllowed(double seconds) {
    return Math.max(FEW_STARTS, limit() * seconds / 3600.0);
  }

  private double limit() {
    return startsPerHour.orElse(USUAL_STARTS_PER_HOUR);
  }

  /** The limit on the starts, in words. */
  public String startsText() {
    return Numbers.plain(limit())
        + " an hour are allowed"
        + (startsPerHour.isPresent() ? "" : " where the unit type states none under [duty]");
  }
}
