package org.benchstroke.judge;

import org.benchstroke.core.uncertainty.ErrorDistribution;
import org.benchstroke.unit.Limit;

/**
 * A value compared with a limit by the agreed rule (ILAC-G8:09/2019 4.2). Immutable.
 *
 * @param word pass, conditional pass, conditional fail or fail; no result if the value or its
 *     uncertainty is no number
 * @param probability that the true value conforms (JCGM 106:2012 clause 7), 0..1, by the
 *     distribution that U is of: right at a guard band of U it is 97.5 %
 */
record Decision(Word word, double probability) {
  /**
   * Judges a value. With a guard band w = r·U a value passes inside the limits less w, passes
   * conditionally inside the limits, fails conditionally inside the limits plus w, and fails beyond
   * (ILAC-G8:09/2019 4.2.3). With w = 0 it passes or fails (4.2.1). A guard band that eats the
   * whole tolerance leaves nothing to pass in.
   *
   * @param half U
   * @param errors the distribution of which U is the 95 % interval
   */
  static Decision judge(double value, double half, ErrorDistribution errors, Limit limit) {
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
    return new Decision(word, errors.within(value, low, high));
  }
}
