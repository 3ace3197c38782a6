package org.benchstroke.run;

import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * How wide the range of n readings of pure noise may be: the quantile of the range of a normal
 * sample, P(range ≤ q·σ) = n ∫ φ(x)·(Φ(x + q) − Φ(x))^(n−1) dx. A fixed 3σ would be met by twenty
 * readings one time in six (their mean range is 3.7σ). Source: the distribution of the range
 * (studentized range with known σ), any table of d2 agrees with its mean. Stateless.
 */
final class NoiseRange {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0.0, 1.0);
  private static final double END = 8.0;
  private static final int STEPS = 800;

  private NoiseRange() {}

  /** The q for which n readings of noise stay within q·σ with the probability. */
  static double factor(int n, double probability) {
    double low = 0.0;
    double high = 2 * END;
    for (int i = 0; i < 40; i++) {
      double middle = (low + high) / 2.0;
      if (probabilityWithin(n, middle) < probability) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  private static double probabilityWithin(int n, double q) {
    double sum = 0.0;
    double step = 2 * END / STEPS;
    for (int i = 0; i <= STEPS; i++) {
      double x = -END + i * step;
      double inside = NORMAL.cumulativeProbability(x + q) - NORMAL.cumulativeProbability(x);
      sum += NORMAL.density(x) * Math.pow(inside, n - 1);
    }
    return n * sum * step;
  }
}
