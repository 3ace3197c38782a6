package org.benchstroke.core.analysis;

import org.benchstroke.core.quantity.Numbers;

/**
 * What a position reading hides. Immutable.
 *
 * @param deviationPercent the standard deviation of the readings at rest, %, ≥ 0
 * @param resolutionPercent the step of the reading, %, ≥ 0
 * @param degrees the degrees of freedom of the deviation; infinite where it is known
 * @param neighbours how neighbouring readings go together
 */
public record PositionNoise(
    double deviationPercent, double resolutionPercent, double degrees, RestNoise neighbours) {
  /** The share of a step of the reading above which noise spreads its rounding evenly. */
  private static final double DITHER = 0.5;

  /** Of readings that are independent of one another. */
  public PositionNoise(double deviationPercent, double resolutionPercent) {
    this(deviationPercent, resolutionPercent, Double.POSITIVE_INFINITY, RestNoise.INDEPENDENT);
  }

  /**
   * By a window at rest: the noise of one reading is larger than what neighbours that go together
   * show.
   */
  public static PositionNoise seen(Trace window, double resolutionPercent, RestNoise neighbours) {
    double shown = window.isEmpty() ? 0.0 : window.spread().deviation();
    RestNoise.Known one = neighbours.ofOne(shown, window.size());
    return new PositionNoise(one.standard(), resolutionPercent, one.degrees(), neighbours);
  }

  public PositionNoise {
    if (!(deviationPercent >= 0.0) || !(resolutionPercent >= 0.0)) {
      throw new IllegalArgumentException(
          "noise and resolution must be 0 or more, not "
              + Numbers.plain(deviationPercent)
              + " % and "
              + Numbers.plain(resolutionPercent)
              + " %");
    }
  }

  /** The standard uncertainty of one reading: noise and rounding (JCGM 100:2008 F.2.2.1), %. */
  public double standard() {
    return Math.hypot(deviationPercent, resolutionPercent / Math.sqrt(12.0));
  }

  /** Whether the noise makes roundings of neighbouring readings independent of each other. */
  public boolean dithers() {
    return deviationPercent >= DITHER * resolutionPercent;
  }

  /** What averaging readings at rest leaves of the noise, %. */
  double noiseOfMean(int readings) {
    double one = dithers() ? standard() : deviationPercent;
    return one * Math.sqrt(neighbours.shareOfMean(readings));
  }

  /** The bound of the rounding that averaging readings at rest does not lessen, %. */
  double roundingOfMean() {
    return dithers() ? 0.0 : resolutionPercent / 2.0;
  }

  /**
   * The variance of one of several readings along a slope, such that dividing by their number gives
   * that of their mean: readings within one rounding step share its error.
   */
  double varianceOnSlope(int readings, double risePercent) {
    double noise =
        deviationPercent * deviationPercent * readings * neighbours.shareOfMean(readings);
    double rounding = resolutionPercent * resolutionPercent / 12.0;
    if (dithers() || resolutionPercent == 0.0) {
      return noise + rounding;
    }
    double independent = Math.min(readings, Math.max(1.0, risePercent / resolutionPercent));
    return noise + rounding * readings / independent;
  }
}
