package org.benchstroke.unit;

import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;

/**
 * A limit of a unit type, in the unit of its measure; at least one side is stated.
 *
 * @param measure what it limits
 * @param low the lower limit
 * @param high the upper limit; above {@code low}
 * @param rule the agreed decision rule
 */
public record Limit(
    MeasureKind measure, OptionalDouble low, OptionalDouble high, DecisionRule rule) {
  public Limit {
    if (low.isEmpty() && high.isEmpty()) {
      throw new IllegalArgumentException("a limit states at least one side");
    }
    if (low.isPresent() && high.isPresent() && !(low.getAsDouble() < high.getAsDouble())) {
      throw new IllegalArgumentException("the lower limit must be below the upper one");
    }
  }

  /** The distance from zero to the nearer side, in the measure's unit: what an error may be. */
  public double narrowestSide() {
    return Math.min(
        Math.abs(low.orElse(Double.POSITIVE_INFINITY)),
        Math.abs(high.orElse(Double.POSITIVE_INFINITY)));
  }

  /**
   * Tolerance ÷ U: half the width between the limits; with one side, from zero to the limit (TUR of
   * ANSI/NCSL Z540.3-2006 5.3 b).
   */
  public double accuracyRatio(double half) {
    boolean both = low.isPresent() && high.isPresent();
    double tolerance = both ? (high.getAsDouble() - low.getAsDouble()) / 2.0 : narrowestSide();
    return tolerance / half;
  }

  /** The limit in words: "±1 %", "13.5 to 16.5 s", "at most 10 %". */
  public String text() {
    String unit = " " + measure.unit();
    if (low.isEmpty()) {
      return "at most " + Numbers.plain(high.getAsDouble()) + unit;
    }
    if (high.isEmpty()) {
      return "at least " + Numbers.plain(low.getAsDouble()) + unit;
    }
    if (low.getAsDouble() == -high.getAsDouble()) {
      return "±" + Numbers.plain(high.getAsDouble()) + unit;
    }
    return Numbers.plain(low.getAsDouble()) + " to " + Numbers.plain(high.getAsDouble()) + unit;
  }
}
