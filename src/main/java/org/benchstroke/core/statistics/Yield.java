package org.benchstroke.core.statistics;

import org.apache.commons.math3.stat.interval.ConfidenceInterval;
import org.apache.commons.math3.stat.interval.WilsonScoreInterval;

/**
 * The share of units that passed, with a confidence interval (Wilson 1927; NIST/SEMATECH e-Handbook
 * 7.2.4.1, from memory): right for few units and for shares near 0 and 1, too. Immutable.
 *
 * @param passed units that passed
 * @param tested units tested
 * @param share 0..1
 * @param low the lower end of the interval, 0 or more
 * @param high the upper one, 1 or less
 */
public record Yield(int passed, int tested, double share, double low, double high)
    implements YieldAnswer {

  /**
   * Of counts.
   *
   * @param coverage above 0 and below 1
   * @throws IllegalArgumentException if more passed than were tested, or a count is negative
   */
  public static YieldAnswer of(int passed, int tested, double coverage) {
    if (passed < 0 || passed > tested) {
      throw new IllegalArgumentException(passed + " of " + tested + " units can't have passed");
    }
    if (tested == 0) {
      return NoAnswer.tooFew(0, 1);
    }
    ConfidenceInterval interval =
        new WilsonScoreInterval().createInterval(tested, passed, coverage);
    // its ends are 0 and 1 to the last bits only
    double low = passed == 0 ? 0.0 : interval.getLowerBound();
    double high = passed == tested ? 1.0 : interval.getUpperBound();
    return new Yield(passed, tested, passed / (double) tested, low, high);
  }
}
