package org.benchstroke.core.analysis;

import java.util.Collection;

/**
 * Mean and standard deviation of repeated values, by two passes with a correction (Chan, Golub,
 * LeVeque 1983, from memory), so that a small spread on a large mean keeps its digits. Unit: that
 * of the values. Immutable.
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
    double low = values[from];
    double high = values[from];
    double mean = mean(values, from, count);
    double apart = 0.0;
    double squares = 0.0;
    for (int i = from; i < from + count; i++) {
      double value = values[i];
      double deviation = value - mean;
      apart += deviation;
      squares += deviation * deviation;
      low = value < low || Double.isNaN(low) ? value : low;
      high = value > high || Double.isNaN(high) ? value : high;
    }
    double deviation =
        count == 1 ? 0.0 : Math.sqrt((squares - apart * apart / count) / (count - 1.0));
    return new Spread(count, mean, deviation, high - low);
  }

  /** The arithmetic mean of some of these values, corrected by that of what they are off it. */
  static double mean(double[] values, int from, int count) {
    double sum = 0.0;
    for (int i = from; i < from + count; i++) {
      sum += values[i];
    }
    double mean = sum / count;
    double apart = 0.0;
    for (int i = from; i < from + count; i++) {
      apart += values[i] - mean;
    }
    return mean + apart / count;
  }

  public static Spread of(Collection<Double> values) {
    return of(values.stream().mapToDouble(Double::doubleValue).toArray());
  }

  /** The standard uncertainty of the mean, s/√n (JCGM 100:2008 4.2.3). */
  public double ofMean() {
    return deviation / Math.sqrt(count);
  }
}
