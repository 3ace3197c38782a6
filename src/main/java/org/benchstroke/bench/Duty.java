package org.benchstroke.bench;

import java.util.OptionalDouble;
import org.benchstroke.bench.toml.TomlSection;

/**
 * What the data sheet allows of the motor. The runner keeps to it; what isn't stated isn't kept.
 *
 * @param startsPerHour starts an hour, at most
 * @param onRatioPercent time in motion over all time, %, at most
 */
public record Duty(OptionalDouble startsPerHour, OptionalDouble onRatioPercent) {
  private static final double FEW_STARTS = 5.0;

  /** Nothing is stated. */
  public static final Duty UNSTATED = new Duty(OptionalDouble.empty(), OptionalDouble.empty());

  static Duty read(TomlSection section) {
    Duty duty =
        new Duty(
            section.optionalNumber("starts_per_hour", 1, 100_000, "starts an hour"),
            section.optionalNumber("on_ratio_pct", 1, 100, "% of the time"));
    section.noOtherKeys();
    return duty;
  }

  /**
   * The rest that a unit must still have before it moves again, s; 0 or less if none.
   *
   * @param movedSeconds how long it moved, s
   * @param watchedSeconds in how much time, s
   */
  public double restSeconds(double movedSeconds, double watchedSeconds) {
    return onRatioPercent.isPresent()
        ? movedSeconds * 100.0 / onRatioPercent.getAsDouble() - watchedSeconds
        : 0.0;
  }

  /**
   * More starts than these within a time are too many. A few are always allowed: a unit that is
   * corrected once or twice does not hunt.
   *
   * @param seconds the time, s
   */
  public OptionalDouble startsAllowed(double seconds) {
    return startsPerHour.isPresent()
        ? OptionalDouble.of(Math.max(FEW_STARTS, startsPerHour.getAsDouble() * seconds / 3600.0))
        : OptionalDouble.empty();
  }
}
