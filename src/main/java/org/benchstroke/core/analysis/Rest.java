package org.benchstroke.core.analysis;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;

/**
 * The mean position over samples at rest. Immutable.
 *
 * @param percent the mean, %
 * @param noiseStandard by noise, %
 * @param roundingHalf the bound of the rounding that averaging leaves, %
 * @param unrest why it isn't at rest; empty if it is
 */
record Rest(double percent, double noiseStandard, double roundingHalf, Optional<String> unrest) {
  private static final int FEWEST = 3;

  /** The share of the trace's time after a step that must be at rest at its end. */
  private static final double SHARE = 0.1;

  /** Among 20 normal readings a range of 6 deviations happens once in 2,500 times. */
  private static final int RANGE_OF = 20;

  private static final double RANGE = 6.0;

  private static final double MEANS_APART = 4.0;

  /** The last samples before a step: at rest if they are whole, stay and don't drift. */
  static Optional<Rest> before(Trace before, Step step) {
    if (before.size() < FEWEST) {
      return Optional.empty();
    }
    Trace window = before.last(step.restSamples());
    Trace earlier = before.slice(0, before.size() - window.size()).last(step.restSamples());
    return Optional.of(
        of(
            window,
            step.noise(),
            damage(window, step.longestPauseSeconds())
                .or(
                    () ->
                        moved(window, earlier.size() < FEWEST ? window : earlier, step)
                            .map(m -> "it was not at rest before the step: it moved by " + m))));
  }

  /** The last samples of a trace that begins with a step: at rest if they stay and don't drift. */
  static Optional<Rest> atEndOf(Trace after, Step step) {
    if (after.size() < 4 * FEWEST) {
      return Optional.empty();
    }
    double end = after.seconds(after.size() - 1);
    double from = end - SHARE * (end - after.seconds(0));
    int wanted = Math.max(step.restSamples(), after.size() - after.indexAt(from));
    int count = Math.min(wanted, after.size() / 4);
    Trace window = after.last(count);
    Trace earlier = after.slice(after.size() - 2 * count, after.size() - count);
    return Optional.of(
        of(
            window,
            step.noise(),
            damage(window, step.longestPauseSeconds())
                .or(
                    () ->
                        moved(window, earlier, step)
                            .map(
                                m ->
                                    "it did not settle: it still moved by " + m + " at the end"))));
  }

  /** A mean over a gap or a pegged reading is the mean of something else. */
  private static Optional<String> damage(Trace window, double longestPauseSeconds) {
    return TraceGuards.gap(window, longestPauseSeconds).or(() -> TraceGuards.saturated(window));
  }

  /** By how much it moved within a window or since the one before; empty if it did not. */
  private static Optional<String> moved(Trace window, Trace earlier, Step step) {
    PositionNoise noise = step.noise();
    Spread now = window.spread();
    Spread then = earlier.spread();
    double range = now.range();
    double wide = Math.max(range(window.size()) * noise.standard(), step.restBandPercent());
    double apart = Math.abs(now.mean() - then.mean());
    double far =
        MEANS_APART * Math.sqrt(2.0) * noise.noiseOfMean(window.size())
            + Math.max(noise.resolutionPercent(), step.restBandPercent() / 5.0);
    if (range <= wide && apart <= far) {
      return Optional.empty();
    }
    double moved = range > wide ? range : apart;
    return Optional.of(Numbers.significant(moved, 2) + " %");
  }

  /** The range of many readings grows with their number: a deviation for each tenfold does. */
  private static double range(int readings) {
    return RANGE + Math.max(0.0, Math.log10(readings / (double) RANGE_OF));
  }

  private static Rest of(Trace window, PositionNoise noise, Optional<String> unrest) {
    return new Rest(
        window.mean(0, window.size()),
        noise.noiseOfMean(window.size()),
        noise.roundingOfMean(),
        unrest);
  }

  /** As a figure of its own, % of travel, less a number. */
  Figure less(double percent) {
    return unrest
        .map(Figure::absent)
        .orElseGet(
            () ->
                Figure.of(
                    new Estimate(
                        this.percent - percent,
                        List.of(
                            Estimate.Part.normal("noise of the position", noiseStandard),
                            Estimate.Part.within("resolution of the position", roundingHalf)),
                        1.0)));
  }
}
