package org.benchstroke.core.statistics;

import java.util.OptionalDouble;

/**
 * The limits of a value, at least one of them. Immutable.
 *
 * @param low the lower limit
 * @param high the upper one, above the lower
 */
public record Tolerance(OptionalDouble low, OptionalDouble high) {
  public Tolerance {
    if (low.isEmpty() && high.isEmpty()) {
      throw new IllegalArgumentException("a tolerance has a limit at least on one side");
    }
    if (low.isPresent() && high.isPresent() && !(low.getAsDouble() < high.getAsDouble())) {
      throw new IllegalArgumentException(
          "the lower limit is below the upper one, not "
              + low.getAsDouble()
              + " and "
              + high.getAsDouble());
    }
  }

  /** Limits on both sides. */
  public static Tolerance between(double low, double high) {
    return new Tolerance(OptionalDouble.of(low), OptionalDouble.of(high));
  }

  /** Only an upper limit. */
  public static Tolerance atMost(double high) {
    return new Tolerance(OptionalDouble.empty(), OptionalDouble.of(high));
  }

  /** Only a lower limit. */
  public static Tolerance atLeast(double low) {
    return new Tolerance(OptionalDouble.of(low), OptionalDouble.empty());
  }

  /** The width, where there are both. */
  public OptionalDouble width() {
    return low.isPresent() && high.isPresent()
        ? OptionalDouble.of(high.getAsDouble() - low.getAsDouble())
        : OptionalDouble.empty();
  }

  /**
   * The smaller of the distances from a place to the limits there are, each in steps of its own
   * side; negative outside.
   */
  double nearest(double place, double stepDown, double stepUp) {
    double down = low.isPresent() ? (place - low.getAsDouble()) / stepDown : Double.MAX_VALUE;
    double up = high.isPresent() ? (high.getAsDouble() - place) / stepUp : Double.MAX_VALUE;
    return Math.min(down, up);
  }
}
