package org.benchstroke.core.statistics;

import java.util.Arrays;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.StatUtils;

/**
 * Whether values may be normal, by Anderson and Darling's test, mean and deviation estimated
 * (NIST/SEMATECH e-Handbook 1.3.5.14). Immutable.
 *
 * @param statistic A²
 * @param adjusted A²·(1 + 0.75/n + 2.25/n²)
 * @param p the probability of such a distance or a larger one of normal values
 */
public record Normality(double statistic, double adjusted, double p) {
  private static final double REJECTED_BELOW = 0.05;

  /**
   * Of values that are not all the same.
   *
   * @param values at least 8 for a p that is right
   */
  static Normality of(double[] values) {
    int n = values.length;
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double mean = StatUtils.mean(values);
    double deviation = Math.sqrt(StatUtils.variance(values));
    NormalDistribution normal = new NormalDistribution(null, 0.0, 1.0);
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
      double below = (sorted[i] - mean) / deviation;
      double above = (sorted[n - 1 - i] - mean) / deviation;
      // the upper tail by symmetry: 1 − Φ would be 0 far out
      double logs = log(normal, below) + log(normal, -above);
      sum += (2.0 * i + 1.0) * logs;
    }
    double statistic = -n - sum / n;
    double adjusted = statistic * (1.0 + 0.75 / n + 2.25 / n / n);
    return new Normality(statistic, adjusted, p(adjusted));
  }

  private static double log(NormalDistribution normal, double z) {
    return Math.log(Math.max(Double.MIN_NORMAL, normal.cumulativeProbability(z)));
  }

  /**
   * The probability beyond an adjusted A² (Stephens in D'Agostino and Stephens, Goodness-of-Fit
   * Techniques, 1986, table 4.9, from memory).
   */
  static double p(double adjusted) {
    double a = adjusted;
    if (a < 0.2) {
      return 1.0 - Math.exp(-13.436 + 101.14 * a - 223.73 * a * a);
    }
    if (a < 0.34) {
      return 1.0 - Math.exp(-8.318 + 42.796 * a - 59.938 * a * a);
    }
    if (a < 0.6) {
      return Math.exp(0.9177 - 4.279 * a - 1.38 * a * a);
    }
    // beyond 10 the curve would rise again
    double far = Math.min(a, 10.0);
    return Math.exp(1.2937 - 5.709 * far + 0.0186 * far * far);
  }

  /** Whether normality is not rejected at 5 %. */
  public boolean plausible() {
    return p >= REJECTED_BELOW;
  }
}
