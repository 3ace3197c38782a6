package org.benchstroke.core.uncertainty;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * The coverage factor t_p(ν) of Student's distribution, two-sided (JCGM 100:2008 G.3, table G.2).
 * Stateless, safe for any thread.
 */
public final class CoverageFactor {
  /** Above this the normal distribution serves: it differs by less than 1e-6. */
  private static final double AS_GOOD_AS_INFINITE = 1.0e7;

  private CoverageFactor() {}

  /**
   * The factor for a coverage and effective degrees of freedom.
   *
   * <p>ν is truncated to the next lower integer (JCGM 100:2008 G.4.1, note 1, from memory: one of
   * the two ways that it offers, and the cautious one), at least 1. It is rounded to two decimals
   * first: 18.9987 is the 19.0 of the worked example in G.4.1, not 18.
   *
   * @param coverage p, above 0 and below 1
   * @param degreesOfFreedom ν, above 0; may be infinite
   * @throws IllegalArgumentException if either is out of its range
   */
  public static double of(double coverage, double degreesOfFreedom) {
    if (!(coverage > 0.0 && coverage < 1.0)) {
      throw new IllegalArgumentException(
          "a coverage probability lies between 0 and 1, not at " + coverage);
    }
    if (!(degreesOfFreedom > 0.0)) {
      throw new IllegalArgumentException(
          "degrees of freedom must be above 0, not " + degreesOfFreedom);
    }
    double upper = (1.0 + coverage) / 2.0;
    if (degreesOfFreedom > AS_GOOD_AS_INFINITE) {
      return new NormalDistribution(null, 0.0, 1.0).inverseCumulativeProbability(upper);
    }
    return new TDistribution(null, whole(degreesOfFreedom)).inverseCumulativeProbability(upper);
  }

  private static double whole(double degreesOfFreedom) {
    return Math.max(1.0, Math.floor(Math.round(degreesOfFreedom * 100.0) / 100.0));
  }

  /** The probability of a value above k standard deviations, by the same distribution. */
  static double beyond(double k, double degreesOfFreedom) {
    return degreesOfFreedom > AS_GOOD_AS_INFINITE
        ? new NormalDistribution(null, 0.0, 1.0).cumulativeProbability(-k)
        : new TDistribution(null, whole(degreesOfFreedom)).cumulativeProbability(-k);
  }
}
