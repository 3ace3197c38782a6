package org.benchstroke.unit;

import java.util.OptionalDouble;
import org.benchstroke.core.toml.TomlSection;

/**
 * The numbers of good bench practice. Common practice, no source: defaults that a unit type's file
 * can override in its table {@code [practice]}.
 *
 * @param restWindowSeconds the shortest quiet window of the rest rule, s
 * @param restWindowOffTimes the window is at least so many controller off-times
 * @param restSamples the window holds at least so many samples; as many are averaged
 * @param restBandPercent a range within the window that counts as rest in any noise, %
 * @param restEarliestSeconds after the nominal travel time, rest is not looked for until then, s
 * @param restTimeoutSeconds beyond twice the nominal travel time, the wait is given up then, s
 * @param overshootPercent an approach that overran by more and came back is not clean, %
 * @param retakes how often an approach that was not clean is made again
 * @param attempts how often a test is begun before its figures stay void
 * @param slewFactor a speed above this multiple of the nominal one is impossible
 * @param gapPeriods samples further apart than this many sample periods are a gap
 * @param ratioWarn accuracy ratio below which a warning is given
 * @param ratioRefuse accuracy ratio below which the run is refused
 * @param noiseShare the largest standard deviation of the position at rest, as a share of the
 *     unit's dead band
 * @param recoverySeconds after a lost link, an instrument is waited for so long, s of wall time
 */
public record Practice(
    double restWindowSeconds,
    double restWindowOffTimes,
    int restSamples,
    double restBandPercent,
    double restEarliestSeconds,
    double restTimeoutSeconds,
    double overshootPercent,
    int retakes,
    int attempts,
    double slewFactor,
    double gapPeriods,
    double ratioWarn,
    double ratioRefuse,
    double noiseShare,
    double loopSettleSeconds,
    double lossEndPercent,
    double lossStayPercent,
    double lossTimeFactor,
    double lossTimeSeconds,
    double recoverySeconds) {
  /** What a file gets that states nothing else. Common practice, no source. */
  public static final Practice USUAL =
      new Practice(
          2.0, 3.0, 20, 0.05, 1.0, 10.0, 0.2, 2, 3, 1.5, 3.0, 4.0, 1.5, 0.25, 0.5, 2.0, 1.0, 1.1,
          1.0, 10.0);

  /** How good an accuracy ratio is. */
  public enum RatioGrade {
    /** As it should be. */
    GOOD,
    /** Below {@code ratioWarn}: better instruments would be wise. */
    LOW,
    /** Below {@code ratioRefuse}: too coarse to judge by; no run is begun. */
    REFUSED
  }

  /** Grades an accuracy ratio, tolerance ÷ U: the one place that knows how. */
  public RatioGrade grade(double ratio) {
    if (ratio < ratioRefuse) {
      return RatioGrade.REFUSED;
    }
    return ratio < ratioWarn ? RatioGrade.LOW : RatioGrade.GOOD;
  }

  static Practice read(TomlSection table) {
    Practice usual = USUAL;
    Practice practice =
        new Practice(
            number(table, "rest_window_s", 0.2, 600, "s", usual.restWindowSeconds),
            number(table, "rest_window_off_times", 0, 100, "off-times", usual.restWindowOffTimes),
            table.integer("rest_samples", 5, 1000, usual.restSamples),
            number(table, "rest_band_pct", 0.001, 5, "%", usual.restBandPercent),
            number(table, "rest_earliest_s", 0, 600, "s", usual.restEarliestSeconds),
            number(table, "rest_timeout_s", 1, 3600, "s", usual.restTimeoutSeconds),
            number(table, "overshoot_pct", 0.01, 20, "%", usual.overshootPercent),
            table.integer("retakes", 0, 10, usual.retakes),
            table.integer("attempts", 1, 10, usual.attempts),
            number(table, "slew_factor", 1.05, 10, "× nominal speed", usual.slewFactor),
            number(table, "gap_periods", 1.5, 100, "sample periods", usual.gapPeriods),
            number(table, "ratio_warn", 1, 100, "", usual.ratioWarn),
            number(table, "ratio_refuse", 1, 100, "", usual.ratioRefuse),
            number(table, "noise_share", 0.01, 1, "of the dead band", usual.noiseShare),
            number(table, "loop_settle_s", 0, 60, "s", usual.loopSettleSeconds),
            number(table, "loss_end_pct", 0.1, 20, "% of travel", usual.lossEndPercent),
            number(table, "loss_stay_pct", 0.1, 20, "% of travel", usual.lossStayPercent),
            number(table, "loss_time_factor", 1, 5, "× nominal time", usual.lossTimeFactor),
            number(table, "loss_time_s", 0, 60, "s", usual.lossTimeSeconds),
            number(table, "recovery_s", 0, 3600, "s", usual.recoverySeconds));
    table.noOtherKeys();
    return practice;
  }

  private static double number(
      TomlSection table, String key, double low, double high, String unit, double otherwise) {
    OptionalDouble found = table.optionalNumber(key, low, high, unit);
    return found.orElse(otherwise);
  }
}
