package org.benchstroke.core.uncertainty;

import java.util.function.DoubleUnaryOperator;

/**
 * How the error of a measured value is distributed: symmetrically about zero. One and the same
 * gives U, the probability of conformity and the risks of a rule, so that they never contradict one
 * another. Immutable, safe for any thread.
 */
public final class ErrorDistribution {
  private final double standard;
  private final DoubleUnaryOperator tail;

  /**
   * One of them.
   *
   * @param standard its standard deviation, ≥ 0; 0 where there is no error
   * @param tail the probability of an error above a distance ≥ 0
   */
  ErrorDistribution(double standard, DoubleUnaryOperator tail) {
    this.standard = standard;
    this.tail = tail;
  }

  /** Normal errors of this standard deviation, ≥ 0. */
  public static ErrorDistribution normal(double standard) {
    return new ErrorDistribution(
        standard, d -> CoverageFactor.beyond(d / standard, Double.POSITIVE_INFINITY));
  }

  /** Its standard deviation: u. */
  public double standard() {
    return standard;
  }

  /**
   * The probability of an error above a distance.
   *
   * @param distance in the unit of the measure, with its sign; may be infinite
   */
  public double above(double distance) {
    double away = Math.abs(distance);
    double beyond = standard == 0.0 || Double.isInfinite(away) ? 0.0 : tail.applyAsDouble(away);
    return distance >= 0.0 ? beyond : 1.0 - beyond;
  }

  /**
   * The probability that the true value lies within two limits (JCGM 106:2012 7.3, 7.4): the error
   * is then neither above what was measured less the low one, nor below it less the high one.
   *
   * @param value what was measured
   * @param low may be −∞
   * @param high may be +∞
   */
  public double within(double value, double low, double high) {
    if (standard == 0.0) {
      return value >= low && value <= high ? 1.0 : 0.0;
    }
    return Math.max(0.0, 1.0 - above(value - low) - above(high - value));
  }

  /** The same in a unit that is so many times as large. */
  public ErrorDistribution in(double unit) {
    return new ErrorDistribution(standard / unit, d -> tail.applyAsDouble(d * unit));
  }
}
