package org.benchstroke.judge;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.core.uncertainty.ErrorDistribution;

/**
 * The risk figures of a decision rule (JCGM 106:2012 9.5, from memory), for measurement errors of
 * any symmetric distribution.
 *
 * @param specific the risk of an item measured right at the acceptance limit: that it is beyond the
 *     tolerance
 * @param consumer the global risk that an item is beyond the tolerance and accepted
 * @param producer the global risk that an item is within the tolerance and not accepted
 */
public record Risk(double specific, double consumer, double producer) {
  private static final int STEPS = 4000;
  private static final double REACH = 8.0;

  /**
   * For a tolerance of ±1 around the nominal value; all else in its unit.
   *
   * @param errors of the measurement, of a standard deviation above 0
   * @param guard w; the acceptance limit is 1 − w
   * @param spread the standard deviation of the items around the nominal value: the prior
   */
  static Risk of(ErrorDistribution errors, double guard, double spread) {
    if (!(errors.standard() > 0.0 && spread > 0.0)) {
      throw new IllegalArgumentException("an uncertainty and a spread are above 0");
    }
    NormalDistribution normal = new NormalDistribution(null, 0.0, 1.0);
    double accept = 1.0 - guard;
    double consumer = 0.0;
    double producer = 0.0;
    double reach = 1.0 + REACH * Math.max(spread, errors.standard());
    // Midpoints on either side of the tolerance, so that no step lies across it.
    for (int i = 0; i < STEPS; i++) {
      double in = (i + 0.5) / STEPS;
      double out = 1.0 + (reach - 1.0) * (i + 0.5) / STEPS;
      producer += density(normal, in, spread) * (1.0 - accepted(errors, in, accept));
      consumer += density(normal, out, spread) * accepted(errors, out, accept);
    }
    double specific = 1.0 - errors.within(accept, -1.0, 1.0);
    return new Risk(specific, 2.0 * consumer * (reach - 1.0) / STEPS, 2.0 * producer / STEPS);
  }

  /** The spread of items of which this share is within ±1. */
  static double spreadFor(double share) {
    return 1.0
        / new NormalDistribution(null, 0.0, 1.0).inverseCumulativeProbability((1.0 + share) / 2.0);
  }

  private static double density(NormalDistribution normal, double x, double spread) {
    return normal.density(x / spread) / spread;
  }

  /** That an item there reads within the acceptance limits. */
  private static double accepted(ErrorDistribution errors, double x, double accept) {
    return accept <= 0.0 ? 0.0 : errors.within(x, -accept, accept);
  }
}
