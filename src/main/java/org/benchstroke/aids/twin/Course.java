package org.benchstroke.aids.twin;

import java.util.Arrays;
import org.benchstroke.core.model.UnitModel;

/**
 * How a unit of the model goes through one move, step after step, as far as anyone has looked. A
 * later look at the same course costs nothing: the fit looks at each with several delays. One
 * thread.
 */
final class Course {
  private static final double STEP_SECONDS = UnitModel.STEP_NANOS / 1e9;
  private static final int FEW = 2048;

  private final UnitModel unit;
  private final long begin;
  private double[] milliamps = new double[FEW];
  private int known;

  /**
   * Of a unit from now on.
   *
   * @param begin how many steps it has made
   */
  Course(UnitModel unit, long begin) {
    this.unit = unit;
    this.begin = begin;
    milliamps[0] = unit.feedbackMilliamps();
    known = 1;
  }

  /**
   * Where it is at each sample of a move, % of travel as the bench reads it.
   *
   * @param delay what moves the whole of it, s
   */
  double[] seen(Move move, int samples, double delay) {
    double[] seen = new double[samples];
    int next = 0;
    for (int i = 0; i < samples; i++) {
      double since = move.trace().seconds(i) - move.at() - delay;
      double seconds = Math.max(0.0, since) + begin * STEP_SECONDS;
      long step = (long) (seconds / STEP_SECONDS);
      int at = (int) Math.max(next, step - begin);
      // Between two steps, so that what is seen changes evenly with the instant.
      double before = after(at);
      double share = seconds / STEP_SECONDS - step;
      seen[i] = (before + share * (after(at + 1) - before) - 4.0) / 0.16;
      next = at + 1;
    }
    return seen;
  }

  /** The feedback after so many steps, mA. */
  private double after(int steps) {
    while (known <= steps) {
      unit.step();
      if (known == milliamps.length) {
        milliamps = Arrays.copyOf(milliamps, 2 * known);
      }
      milliamps[known] = unit.feedbackMilliamps();
      known++;
    }
    return milliamps[steps];
  }
}
