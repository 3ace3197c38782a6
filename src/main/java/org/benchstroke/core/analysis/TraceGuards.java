package org.benchstroke.core.analysis;

import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;

/**
 * What makes a trace unfit to measure from. Each guard names the first thing that it finds, in
 * words with numbers; none repairs anything. Pure functions.
 */
public final class TraceGuards {
  private static final double NOISE_DEVIATIONS = 6.0;

  /** A step of this much may be a register that is renewed more slowly than it is read, %. */
  private static final double MARGIN_PERCENT = 0.5;

  private TraceGuards() {}

  /**
   * Neighbouring samples too far apart.
   *
   * @param longestPauseSeconds a longer pause is a gap; 3 sample periods are common practice
   */
  public static Optional<String> gap(Trace trace, double longestPauseSeconds) {
    for (int i = 1; i < trace.size(); i++) {
      double pause = trace.seconds(i) - trace.seconds(i - 1);
      if (pause > longestPauseSeconds) {
        return Optional.of(
            "gap of "
                + Numbers.fixed(pause, 3)
                + " s between samples at "
                + Numbers.fixed(trace.seconds(i - 1), 3)
                + " s, where "
                + Numbers.fixed(longestPauseSeconds, 3)
                + " s is the most");
      }
    }
    return Optional.empty();
  }

  /**
   * The same where a trace must hold samples from one instant to another: what is missing before
   * its first and after its last counts, too.
   *
   * @param fromSeconds it was sampled from then
   * @param toSeconds until then
   */
  public static Optional<String> gapWithin(
      Trace trace, double fromSeconds, double toSeconds, double longestPauseSeconds) {
    double first = trace.isEmpty() ? toSeconds : trace.seconds(0);
    double last = trace.isEmpty() ? fromSeconds : trace.seconds(trace.size() - 1);
    if (first - fromSeconds > longestPauseSeconds) {
      return Optional.of(missing(first - fromSeconds, "at the beginning", longestPauseSeconds));
    }
    if (toSeconds - last > longestPauseSeconds) {
      return Optional.of(missing(toSeconds - last, "at the end", longestPauseSeconds));
    }
    return gap(trace, longestPauseSeconds);
  }

  private static String missing(double seconds, String where, double most) {
    return "gap: no sample for "
        + Numbers.fixed(seconds, 3)
        + " s "
        + where
        + ", where "
        + Numbers.fixed(most, 3)
        + " s is the most";
  }

  /** A sample at or beyond the end of its channel's range. */
  public static Optional<String> saturated(Trace trace) {
    for (int i = 0; i < trace.size(); i++) {
      if (trace.saturated(i)) {
        return Optional.of(
            "saturated sample of "
                + Numbers.fixed(trace.percent(i), 2)
                + " % at "
                + Numbers.fixed(trace.seconds(i), 3)
                + " s");
      }
    }
    return Optional.empty();
  }

  /**
   * A jump that no drive can make, even if both stamps and the noise are as unlucky as they can be:
   * the mark of a dead spot in the position sensor. An input that converts about as often as it is
   * read shows two conversions' way at once, now and then; over two readings that way is possible.
   *
   * @param fastest %/s; 1.5 times the nominal speed is common practice, no source
   * @param noisePercent standard deviation of the position at rest
   * @param resolutionPercent the step of the reading
   */
  public static Optional<String> impossibleSlew(
      Trace trace, double fastest, double noisePercent, double resolutionPercent) {
    double allowance =
        Math.max(MARGIN_PERCENT, NOISE_DEVIATIONS * noisePercent + resolutionPercent);
    for (int i = 1; i < trace.size(); i++) {
      double jump = Math.abs(trace.percent(i) - trace.percent(i - 1));
      if (jump <= allowance) {
        continue;
      }
      double pause = trace.seconds(i) - trace.seconds(i - 1);
      if (beyond(trace, i - 1, i, fastest, allowance)
          && (!goesOn(trace, i) || beyond(trace, i - 2, i, fastest, allowance))) {
        return Optional.of(
            "impossible slew: "
                + Numbers.fixed(jump, 2)
                + " % within "
                + Numbers.fixed(pause, 3)
                + " s at "
                + Numbers.fixed(trace.seconds(i - 1), 3)
                + " s, where no more than "
                + Numbers.fixed(fastest, 2)
                + " %/s is possible");
      }
    }
    return Optional.empty();
  }

  private static boolean beyond(Trace trace, int from, int to, double fastest, double allowance) {
    double way = Math.abs(trace.percent(to) - trace.percent(from));
    double longest =
        trace.seconds(to)
            - trace.seconds(from)
            + trace.stampHalfSeconds(from)
            + trace.stampHalfSeconds(to);
    return way - allowance > fastest * longest;
  }

  /** Whether a change goes the way of the one before it. */
  private static boolean goesOn(Trace trace, int i) {
    return i >= 2
        && (trace.percent(i) - trace.percent(i - 1)) * (trace.percent(i - 1) - trace.percent(i - 2))
            > 0.0;
  }

  /**
   * The same value to the last bit throughout, while motion was commanded. A quiet quantised signal
   * at rest may repeat for ever, so give only a trace in which the unit had to move.
   *
   * @param leastSamples fewer identical samples than this prove nothing
   */
  public static Optional<String> frozen(Trace commandedMotion, int leastSamples) {
    if (commandedMotion.size() < Math.max(2, leastSamples)) {
      return Optional.empty();
    }
    double first = commandedMotion.percent(0);
    for (int i = 1; i < commandedMotion.size(); i++) {
      if (Double.compare(commandedMotion.percent(i), first) != 0) {
        return Optional.empty();
      }
    }
    return Optional.of(
        "frozen value: "
            + commandedMotion.size()
            + " samples of exactly "
            + Numbers.fixed(first, 2)
            + " % while motion was commanded");
  }
}
