package org.benchstroke.analysis;

import java.util.Optional;
import org.benchstroke.analysis.Trace.Sample;
import org.benchstroke.quantity.Numbers;

/**
 * What makes a trace unfit to measure from. Each guard names the first thing that it finds, in
 * words with numbers; none repairs anything. Pure functions.
 */
public final class TraceGuards {
  /** A pause between samples above this many periods is a gap. */
  public static final double GAP_PERIODS = 3.0;

  /** No unit is this many times as fast as its nominal speed; common practice, no source. */
  public static final double SLEW_FACTOR = 1.5;

  private static final double NOISE_DEVIATIONS = 6.0;

  private TraceGuards() {}

  /** Neighbouring samples further apart than {@link #GAP_PERIODS} sample periods. */
  public static Optional<String> gap(Trace trace, double samplePeriodSeconds) {
    for (int i = 1; i < trace.size(); i++) {
      double pause = trace.get(i).seconds() - trace.get(i - 1).seconds();
      if (pause > GAP_PERIODS * samplePeriodSeconds) {
        return Optional.of(
            "gap of "
                + Numbers.fixed(pause, 3)
                + " s between samples at "
                + Numbers.fixed(trace.get(i - 1).seconds(), 3)
                + " s, where "
                + Numbers.plain(samplePeriodSeconds)
                + " s is the sample period");
      }
    }
    return Optional.empty();
  }

  /** A sample at or beyond the end of its channel's range. */
  public static Optional<String> saturated(Trace trace) {
    return trace.samples().stream()
        .filter(Sample::saturated)
        .findFirst()
        .map(
            s ->
                "saturated sample of "
                    + Numbers.fixed(s.percent(), 2)
                    + " % at "
                    + Numbers.fixed(s.seconds(), 3)
                    + " s");
  }

  /**
   * A jump that no drive can make: faster than 1.5 times the nominal speed even if both stamps and
   * the noise are as unlucky as they can be. The mark of a dead spot in the position sensor.
   *
   * @param percentPerSecond the unit's nominal speed
   * @param noisePercent standard deviation of the position at rest
   * @param resolutionPercent the step of the reading
   */
  public static Optional<String> impossibleSlew(
      Trace trace, double percentPerSecond, double noisePercent, double resolutionPercent) {
    double allowance = NOISE_DEVIATIONS * noisePercent + resolutionPercent;
    for (int i = 1; i < trace.size(); i++) {
      Sample a = trace.get(i - 1);
      Sample b = trace.get(i);
      double longest = b.seconds() - a.seconds() + a.stampHalfSeconds() + b.stampHalfSeconds();
      double jump = Math.abs(b.percent() - a.percent());
      if (jump - allowance > SLEW_FACTOR * percentPerSecond * longest) {
        return Optional.of(
            "impossible slew: "
                + Numbers.fixed(jump, 2)
                + " % within "
                + Numbers.fixed(b.seconds() - a.seconds(), 3)
                + " s at "
                + Numbers.fixed(a.seconds(), 3)
                + " s, where the unit makes "
                + Numbers.fixed(percentPerSecond, 2)
                + " %/s");
      }
    }
    return Optional.empty();
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
    double first = commandedMotion.get(0).percent();
    boolean alike =
        commandedMotion.samples().stream().allMatch(s -> Double.compare(s.percent(), first) == 0);
    if (!alike) {
      return Optional.empty();
    }
    return Optional.of(
        "frozen value: "
            + commandedMotion.size()
            + " samples of exactly "
            + Numbers.fixed(first, 2)
            + " % while motion was commanded");
  }
}
