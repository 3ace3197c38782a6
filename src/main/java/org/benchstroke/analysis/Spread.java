package org.benchstroke.analysis;

import java.util.Collection;
import org.apache.commons.math3.stat.StatUtils;

/**
 * Mean and standard deviation of repeated values, by two passes with a correction (Commons Math),
 * so that a small spread on a large mean keeps its digits. Unit: that of the values. Immutable.
 *
 * @param count n ≥ 1
 * @param mean the arithmetic mean
 * @param deviation the standard deviation with n − 1 (JCGM 100:2008 4.2.2); 0 for one value
 * @param range largest minus smallest
 */
public record Spread(int count, double mean, double deviation, double range) {

  /**
   * Of these values.
   *
   * @throws IllegalArgumentException if there are none
   */
  public static Spread of(double... values) {
    return of(values, 0, values.length);
  }

  /** Of some of these values, without a copy of them. */
  static Spread of(double[] values, int from, int count) {
    if (count == 0) {
      throw new IllegalArgumentException("there is no mean of no values");
    }
    double mean = StatUtils.mean(values, from, count);
    double deviation = count == 1 ? 0.0 : Math.sqrt(StatUtils.variance(values, mean, from, count));
    double range = StatUtils.max(values, from, count) - StatUtils.min(values, from, count);
    return new Spread(count, mean, deviation, range);
  }

  public static Spread of(Collection<Double> values) {
    return of(values.stream().mapToDouble(Double::doubleValue).toArray());
  }

  /** The standard uncertainty of the mean, s/√n (JCGM 100:2008 4.2.3). */
  public double ofMean() {
    return deviation / Math.sqrt(count);
  }
}
