package org.benchstroke.core.analysis;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.math3.stat.StatUtils;
import org.benchstroke.core.quantity.Numbers;

/**
 * Finds where the clock of a trace that others logged was set while it ran: an interval between two
 * stamps that is unlike the others, over which the position went as far as in a usual one. A sample
 * that came late, or one that is missing, leaves such an interval too, but then the position went
 * on for as long. Where nothing moves, a whole multiple of the usual interval is taken for missing
 * samples. Pure functions.
 */
public final class ClockSteps {
  /** An interval is unlike the others beyond so many of their usual deviations. */
  private static final double UNLIKE = 6.0;

  /** And beyond this share of the usual interval. */
  private static final double LEAST_SHARE = 0.05;

  /** The same where nothing moves. */
  private static final double LEAST_SHARE_AT_REST = 0.25;

  /** Samples on either side that tell the speed there. */
  private static final int BESIDE = 4;

  private static final int FEWEST = 10;
  private static final double CLEAR = 6.0;

  private static final double MEDIAN = 50.0;

  private ClockSteps() {}

  /**
   * The first step that the stamps show, in words; empty if there is none to be seen.
   *
   * @param trace a part of a logged trace
   * @param noise of the position
   */
  public static Optional<String> in(Trace trace, PositionNoise noise) {
    if (trace.size() < FEWEST) {
      return Optional.empty();
    }
    double[] intervals = new double[trace.size() - 1];
    double stamp = 0.0;
    for (int i = 0; i < intervals.length; i++) {
      intervals[i] = trace.seconds(i + 1) - trace.seconds(i);
      stamp = Math.max(stamp, trace.stampHalfSeconds(i));
    }
    double usual = StatUtils.percentile(intervals, MEDIAN);
    double[] off = Arrays.stream(intervals).map(d -> Math.abs(d - usual)).toArray();
    // The deviation of normal intervals is 1.4826 of their median distance; a stamp has its own.
    double tolerance =
        Math.max(
            UNLIKE * 1.4826 * StatUtils.percentile(off, MEDIAN),
            Math.max(LEAST_SHARE * usual, 4.0 * stamp));
    for (int i = 0; i < intervals.length; i++) {
      if (off[i] > tolerance && stepped(trace, intervals, i, usual, tolerance, noise)) {
        return Optional.of(
            "the clock of the file seems to have been set: "
                + Numbers.fixed(intervals[i], 3)
                + " s between samples at "
                + Numbers.fixed(trace.seconds(i), 3)
                + " s, where "
                + Numbers.fixed(usual, 3)
                + " s is usual, and the position went no further than usual");
      }
    }
    return Optional.empty();
  }

  private static boolean stepped(
      Trace trace, double[] intervals, int i, double usual, double tolerance, PositionNoise noise) {
    double excess = intervals[i] - usual;
    double before = speed(trace, i - BESIDE, i);
    double after = speed(trace, i + 1, i + 1 + BESIDE);
    double speed = (before + after) / 2.0;
    boolean tells =
        before * after > 0.0
            && Math.abs(before - after) < 0.5 * Math.abs(speed)
            && Math.abs(speed * excess) > CLEAR * noise.standard();
    if (tells) {
      double went = trace.percent(i + 1) - trace.percent(i);
      return Math.abs(went - speed * intervals[i]) > 0.5 * Math.abs(speed * excess);
    }
    if (Math.abs(excess) <= LEAST_SHARE_AT_REST * usual) {
      // Nothing moves that could tell a clock that was set from an exchange that took longer.
      return false;
    }
    double multiple = Math.max(1.0, Math.rint(intervals[i] / usual)) * usual;
    boolean missing = intervals[i] > usual && Math.abs(intervals[i] - multiple) <= tolerance;
    boolean late =
        (i > 0 && Math.abs(intervals[i - 1] + intervals[i] - 2.0 * usual) <= tolerance)
            || (i + 1 < intervals.length
                && Math.abs(intervals[i] + intervals[i + 1] - 2.0 * usual) <= tolerance);
    return !missing && !late;
  }

  /** The mean speed between two samples; 0 where the trace does not reach so far. */
  private static double speed(Trace trace, int from, int to) {
    if (from < 0 || to >= trace.size()) {
      return 0.0;
    }
    double seconds = trace.seconds(to) - trace.seconds(from);
    return seconds > 0.0 ? (trace.percent(to) - trace.percent(from)) / seconds : 0.0;
  }
}
