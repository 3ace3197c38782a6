package org.benchstroke.verdict;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.benchstroke.bench.Limit;
import org.benchstroke.uncertainty.Expanded;

/**
 * A value held against a limit by the agreed rule (ILAC-G8:09/2019 4.2). Immutable.
 *
 * @param word pass, conditional pass, conditional fail or fail; no result if the value or its
 *     uncertainty is no number
 * @param probability that the true value conforms (JCGM 106:2012 clause 7), 0..1. A normal
 *     distribution is taken from 30 degrees of freedom, Student's below.
 */
public record Decision(Word word, double probability) {
  private static final double AS_GOOD_AS_NORMAL = 30.0;

  /**
   * Judges a value. With a guard band w = r·U a value passes inside the limits less w, passes
   * conditionally inside the limits, fails conditionally inside the limits plus w, and fails beyond
   * (ILAC-G8:09/2019 4.2.3). With w = 0 it passes or fails (4.2.1). A guard band that eats the
   * whole tolerance leaves nothing to pass in.
   */
  public static Decision judge(double value, Expanded uncertainty, Limit limit) {
    double half = uncertainty.half();
    if (!Double.isFinite(value) || !Double.isFinite(half)) {
      return new Decision(Word.NO_RESULT, 0.0);
    }
    double low = limit.low().orElse(Double.NEGATIVE_INFINITY);
    double high = limit.high().orElse(Double.POSITIVE_INFINITY);
    double guard = limit.rule().guard(half);
    Word word;
    if (value >= low + guard && value <= high - guard) {
      word = Word.PASS;
    } else if (value >= low && value <= high) {
      word = Word.CONDITIONAL_PASS;
    } else if (guard > 0.0 && value >= low - guard && value <= high + guard) {
      word = Word.CONDITIONAL_FAIL;
    } else {
      word = Word.FAIL;
    }
    return new Decision(word, probability(value, uncertainty, low, high));
  }

  /**
   * With few degrees of freedom the tails are heavier: Student's distribution (JCGM 106:2012 7).
   */
  private static double probability(double value, Expanded uncertainty, double low, double high) {
    double standard = uncertainty.standard();
    double degrees = uncertainty.degreesOfFreedom();
    if (standard == 0.0 || degrees >= AS_GOOD_AS_NORMAL) {
      return probability(value, standard, low, high);
    }
    TDistribution t = new TDistribution(null, Math.max(1.0, degrees));
    double below = t.cumulativeProbability((low - value) / standard);
    return Math.max(0.0, t.cumulativeProbability((high - value) / standard) - below);
  }

  /**
   * The probability of conformity Φ((high − y)/u) − Φ((low − y)/u) (JCGM 106:2012 7.3, 7.4).
   *
   * @param standard u; with 0 the value itself decides
   * @param low may be −∞
   * @param high may be +∞
   */
  public static double probability(double value, double standard, double low, double high) {
    if (standard == 0.0) {
      return value >= low && value <= high ? 1.0 : 0.0;
    }
    NormalDistribution normal = new NormalDistribution(null, 0.0, 1.0);
    double below = normal.cumulativeProbability((low - value) / standard);
    double upTo = normal.cumulativeProbability((high - value) / standard);
    return Math.max(0.0, upTo - below);
  }
}
