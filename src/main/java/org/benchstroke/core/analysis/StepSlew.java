package org.benchstroke.core.analysis;

import java.util.List;
import org.benchstroke.core.analysis.Estimate.Part;

/**
 * The largest speed of a response: of straight lines through windows of a third of its rise time.
 * One thread.
 */
final class StepSlew {
  private static final double SHARE = 3.0;
  private static final int FEWEST = 4;
  private static final int STRIDES = 20;

  /** Windows whose speeds differ by no more than this many deviations compete for the largest. */
  private static final double ALIKE = 3.0;

  /**
   * Noise favours the largest: of four windows that compete it shows one that is this many of its
   * deviations too fast (the mean of the largest of four normal values); of fewer, less.
   */
  private static final double MOST_FAVOURED = 1.0;

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
    int end = Math.min(trace.size(), to + count) - count;
    int begin = Math.max(0, from - count);
    double[] speeds = new double[Math.max(0, (end - begin) / stride + 1)];
    Slopes slopes = Slopes.of(trace.slice(begin, Math.max(begin, end + count)));
    int best = -1;
    for (int i = 0; i < speeds.length; i++) {
      speeds[i] = step.sign() * slopes.over(i * stride, count);
      best = speeds[i] > (best < 0 ? 0.0 : speeds[best]) ? i : best;
    }
    if (best < 0) {
      return new Fastest(Figure.absent("sampling insufficient: no window of its rise rises"), 0.0);
    }
    int at = begin + best * stride;
    Trace window = trace.slice(at, at + count);
    double seconds = window.seconds(count - 1) - window.seconds(0);
    double noise = noiseOf(speeds[best], window);
    int alike = 0;
    for (double speed : speeds) {
      alike += speed > speeds[best] - ALIKE * noise ? 1 : 0;
    }
    double apart = (alike - 1.0) * stride / count;
    double favoured = Math.min(MOST_FAVOURED, apart / 2.0) * noise;
    return new Fastest(Figure.of(estimate(speeds[best], window, noise, favoured)), seconds);
  }

  /** The standard deviation of a slope: σ² ÷ Σ(t − mean)², evenly spaced (JCGM 100:2008 H.3.2). */
  private double noiseOf(double speed, Trace window) {
    int n = window.size();
    double seconds = window.seconds(n - 1) - window.seconds(0);
    double spread = seconds * seconds / 12.0 * n * (n + 1.0) / (n - 1.0);
    return Math.sqrt(step.noise().varianceOnSlope(n, speed * seconds) / spread);
  }

  private static Estimate estimate(double best, Trace window, double noise, double favoured) {
    double seconds = window.seconds(window.size() - 1) - window.seconds(0);
    double stamp = window.stampHalfSeconds(0);
    return new Estimate(
        best,
        List.of(
            Part.normal("noise of the position", noise),
            Part.normal("largest of several windows", favoured),
            Part.within("stamps of the samples", best * Math.sqrt(2.0) * stamp / seconds)),
        Math.sqrt(2.0) / seconds);
  }
}
