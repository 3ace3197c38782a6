package org.benchstroke.core.statistics;

/**
 * How an EWMA chart weighs and how wide its limits are (NIST/SEMATECH e-Handbook 6.3.2.4). Small
 * shifts want a small λ: 0.2 to 0.3 is usual. Immutable.
 *
 * @param lambda λ, the weight of the newest value, above 0, at most 1
 * @param width L, half the distance of the limits in deviations of the average, above 0
 * @param limits whether they allow for the beginning
 */
public record Weighting(double lambda, double width, Limits limits) {
  /** Which variance of the average the limits are of. */
  public enum Limits {
    /** What it comes to in the end, from the first point on. */
    STEADY,
    /** What it is after so many points: narrower at the beginning. */
    EXACT
  }

  public Weighting {
    if (!(lambda > 0.0 && lambda <= 1.0) || !(width > 0.0) || Double.isInfinite(width)) {
      throw new IllegalArgumentException(
          "λ lies above 0 and up to 1, the width above 0, not at " + lambda + ", " + width);
    }
  }

  /** The deviation of the average in the end, in those of a value: √(λ ÷ (2 − λ)). */
  double steady() {
    return Math.sqrt(lambda / (2.0 - lambda));
  }

  /** The limits' distance from the centre after so many values, in deviations of a value. */
  double reach(int values) {
    double begun =
        limits == Limits.EXACT ? Math.sqrt(1.0 - Math.pow(1.0 - lambda, 2.0 * values)) : 1.0;
    return width * steady() * begun;
  }
}
