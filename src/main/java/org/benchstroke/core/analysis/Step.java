package org.benchstroke.core.analysis;

import org.benchstroke.core.quantity.Numbers;

/**
 * A step of the setpoint, and on what terms its response is measured. Immutable.
 *
 * @param seconds when the setpoint changed, on the clock of the trace, s
 * @param halfSeconds it changed within ± this, s, ≥ 0
 * @param fromPercent the setpoint before, % of travel
 * @param toPercent the setpoint after; another one
 * @param bandPercent a response has settled when it stays within ± this of its end, % of travel
 * @param noise of the position
 * @param longestPauseSeconds a longer pause between samples is a gap
 * @param restSamples so many samples at least make a mean at rest
 * @param restBandPercent a unit that moves less than this over them is at rest in any noise, %
 */
public record Step(
    double seconds,
    double halfSeconds,
    double fromPercent,
    double toPercent,
    double bandPercent,
    PositionNoise noise,
    double longestPauseSeconds,
    int restSamples,
    double restBandPercent) {
  private static final int USUAL_SAMPLES = 20;
  private static final double USUAL_BAND_PERCENT = 0.05;

  /** With a rest as it is usual: 20 samples within 0.05 % (common practice, no source). */
  public Step(
      double seconds,
      double halfSeconds,
      double fromPercent,
      double toPercent,
      double bandPercent,
      PositionNoise noise,
      double longestPauseSeconds) {
    this(
        seconds,
        halfSeconds,
        fromPercent,
        toPercent,
        bandPercent,
        noise,
        longestPauseSeconds,
        USUAL_SAMPLES,
        USUAL_BAND_PERCENT);
  }

  public Step {
    if (!(Math.abs(toPercent - fromPercent) > 0.0)) {
      throw new IllegalArgumentException("a step needs two different setpoints");
    }
    if (!(bandPercent > 0.0) || !(longestPauseSeconds > 0.0) || !(halfSeconds >= 0.0)) {
      throw new IllegalArgumentException(
          "a step needs a band and a longest pause above 0 and a half-width of 0 or more, not "
              + Numbers.plain(bandPercent)
              + " %, "
              + Numbers.plain(longestPauseSeconds)
              + " s and "
              + Numbers.plain(halfSeconds)
              + " s");
    }
  }

  /** 1 for a step up, −1 for one down. */
  double sign() {
    return toPercent > fromPercent ? 1.0 : -1.0;
  }
}
