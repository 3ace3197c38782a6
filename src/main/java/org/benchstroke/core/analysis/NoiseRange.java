package org.benchstroke.core.analysis;

import org.apache.commons.math3.analysis.solvers.BrentSolver;
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

  /** The trapezoidal rule converges fast on such a bell: more steps change nothing within 1e-9. */
  private static final double STEP = 0.1;

  private static final int STEPS = (int) Math.round(2 * END / STEP);
  private static final double PRECISION = 1e-9;
  private static final int MOST_EVALUATIONS = 200;

  private NoiseRange() {}

  /** The q for which n readings of noise stay within q·σ with the probability. */
  static double factor(int n, double probability) {
    double[] below = new double[STEPS + 1];
    for (int i = 0; i <= STEPS; i++) {
      below[i] = NORMAL.cumulativeProbability(x(i));
    }
    return new BrentSolver(PRECISION)
        .solve(MOST_EVALUATIONS, q -> probabilityWithin(n, q, below) - probability, 0.0, 2 * END);
  }

  private static double probabilityWithin(int n, double q, double[] below) {
    double sum = 0.0;
    for (int i = 0; i <= STEPS; i++) {
      double inside = NORMAL.cumulativeProbability(x(i) + q) - below[i];
      sum += NORMAL.density(x(i)) * Math.pow(inside, n - 1);
    }
    return n * sum * STEP;
  }

  private static double x(int i) {
    return -END + i * STEP;
  }
}
