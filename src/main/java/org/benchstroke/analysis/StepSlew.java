package org.benchstroke.analysis;

import java.util.List;
import org.benchstroke.analysis.Estimate.Part;

/**
 * The largest speed of a response: of straight lines through windows of a third of its rise time.
 * One thread.
 */
final class StepSlew {
  private static final double SHARE = 3.0;
  private static final int FEWEST = 4;
  private static final int STRIDES = 20;

  private final Trace trace;
  private final Step step;
  private final Figure rise;
  private final StepLevels levels;

  StepSlew(Trace trace, Step step, Figure rise, StepLevels levels) {
    this.trace = trace;
    this.step = step;
    this.rise = rise;
    this.levels = levels;
  }

  /**
   * The largest speed and the window it was found in.
   *
   * @param figure %/s, rising in the step's direction
   * @param windowSeconds how long the window is, s; 0 without a figure
   */
  record Fastest(Figure figure, double windowSeconds) {}

  Fastest fastest() {
    if (!rise.isPresent()) {
      return new Fastest(rise, 0.0);
    }
    int from = levels.before(levels.level(0.1));
    int to = Math.min(trace.size() - 1, levels.before(levels.level(0.9)) + 1);
    int perWindow = (int) Math.ceil((to - from) / SHARE) + 1;
    int count = Math.min(to - from + 1, Math.max(FEWEST, perWindow));
    int stride = Math.max(1, count / STRIDES);
    double best = 0.0;
    int bestAt = -1;
    for (int i = Math.max(0, from); i + count <= to + 1; i += stride) {
      double speed = Parabola.slope(trace.slice(i, i + count), step.sign());
      if (speed > best) {
        best = speed;
        bestAt = i;
      }
    }
    if (bestAt < 0) {
      return new Fastest(Figure.absent("sampling insufficient: no window of its rise rises"), 0.0);
    }
    Trace window = trace.slice(bestAt, bestAt + count);
    double seconds = window.seconds(count - 1) - window.seconds(0);
    return new Fastest(Figure.of(estimate(best, window)), seconds);
  }

  private Estimate estimate(double best, Trace window) {
    int n = window.size();
    double seconds = window.seconds(n - 1) - window.seconds(0);
    double stamp = window.stampHalfSeconds(0);
    // The variance of a slope: σ² ÷ Σ(t − mean)², with evenly spaced t (JCGM 100:2008 H.3.2).
    double spread = seconds * seconds / 12.0 * n * (n + 1.0) / (n - 1.0);
    double variance = step.noise().varianceOnSlope(n, best * seconds);
    return new Estimate(
        best,
        List.of(
            Part.normal("noise of the position", Math.sqrt(variance / spread)),
            Part.within("stamps of the samples", best * Math.sqrt(2.0) * stamp / seconds)),
        Math.sqrt(2.0) / seconds);
  }
}
