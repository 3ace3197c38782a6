package org.benchstroke.judge;

import org.apache.commons.math3.special.Erf;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.quantity.Numbers;

/**
 * The longest time for which a position kept all its digits.
 *
 * @param fromSeconds when it began, s
 * @param toSeconds when it ended, s
 * @param values how many new values of the input it stands for
 * @param noisePercent the noise of the position at rest in the rest of the record, %
 */
public record FrozenReading(
    double fromSeconds, double toSeconds, double values, double noisePercent) {
  /** How often noise may look frozen by chance; our choice. */
  private static final double FALSE_PROBABILITY = 1.0e-6;

  /** Neighbours go together: so many are taken for one independent value; our choice. */
  private static final double TOGETHER = 5.0;

  /**
   * Finds it.
   *
   * @param trace of a hold, at least two samples
   * @param renewalSeconds how often the input gets a new value, s; 0 if with each sample
   */
  public static FrozenReading in(Trace trace, double noisePercent, double renewalSeconds) {
    int begin = 0;
    int longest = 0;
    int at = 0;
    for (int i = 1; i < trace.size(); i++) {
      begin = trace.percent(i) == trace.percent(i - 1) ? begin : i;
      if (i - begin > longest) {
        longest = i - begin;
        at = begin;
      }
    }
    double interval = (trace.seconds(trace.size() - 1) - trace.seconds(0)) / (trace.size() - 1.0);
    double values = longest * interval / Math.max(interval, renewalSeconds);
    return new FrozenReading(trace.seconds(at), trace.seconds(at + longest), values, noisePercent);
  }

  /**
   * Whether noise can't have left it alone for so long, wherever in a step of the reading it stood.
   *
   * @param stepPercent the step of the reading, %; 0 if it is not known
   */
  public boolean unlikely(double stepPercent) {
    if (noisePercent <= 0.0) {
      return false;
    }
    double one = Erf.erf(stepPercent / (2.0 * Math.sqrt(2.0) * noisePercent));
    return values >= TOGETHER && Math.pow(one, values / TOGETHER) < FALSE_PROBABILITY;
  }

  public String words() {
    return "the position did not change by a digit from "
        + Numbers.fixed(fromSeconds, 1)
        + " to "
        + Numbers.fixed(toSeconds, 1)
        + " s, though elsewhere at rest it scatters by "
        + Numbers.significant(noisePercent, 2)
        + " %: the input stopped, which does not show that the unit stood still; check the logger"
        + " and its wiring, and record it again";
  }
}
