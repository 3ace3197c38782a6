package org.benchstroke.core.analysis;

import java.util.Optional;

/**
 * The time of one full stroke from a position trace: from 5 % to 95 % of the commanded change,
 * divided by 0.90, so that neither start-up nor the last approach counts. The two levels are common
 * practice, no source. Pure functions.
 */
public final class StrokeTiming {
  private static final double NEAR = 0.05;
  private static final double FAR = 0.95;
  private static final double SHARE = FAR - NEAR;

  private StrokeTiming() {}

  /**
   * What became of a stroke.
   *
   * @param timed its figures; empty if there are none
   * @param reason why there are none; else empty
   * @param damaged whether that is for the samples, and not for what the unit did
   */
  public record Outcome(Optional<Timed> timed, String reason, boolean damaged) {
    static Outcome none(String reason) {
      return new Outcome(Optional.empty(), reason, false);
    }

    /** What a gap or a pegged reading spoiled: the unit may have done its stroke all the same. */
    public static Outcome damaged(String reason) {
      return new Outcome(Optional.empty(), reason, true);
    }
  }

  /**
   * A timed stroke. All standard uncertainties are of the stroke time, in s.
   *
   * @param seconds the time for the whole commanded change, s
   * @param deadSeconds from the command to the crossing at 5 %, less the run up to there at the
   *     stroke's own speed, s: an estimate of the time before it moved
   * @param stampStandard by the stamps of the two crossings
   * @param interpolationStandard by what happens between two samples
   * @param noiseStandard by the noise of the position
   * @param noiseDegrees the degrees of freedom of that
   * @param secondsPerPercent the crossing's shift per % of position error at either level, s/%
   */
  public record Timed(
      double seconds,
      double deadSeconds,
      double stampStandard,
      double interpolationStandard,
      double noiseStandard,
      double noiseDegrees,
      double secondsPerPercent) {}

  /**
   * Times a stroke.
   *
   * @param trace from the command until rest
   * @param commandSeconds when it was commanded
   * @param fromPercent the setpoint before
   * @param toPercent the setpoint commanded; not equal to {@code fromPercent}
   * @param longestPauseSeconds a longer pause between samples is a gap and voids the stroke
   * @param noise of the position at rest
   */
  public static Outcome of(
      Trace trace,
      double commandSeconds,
      double fromPercent,
      double toPercent,
      double longestPauseSeconds,
      PositionNoise noise) {
    double change = toPercent - fromPercent;
    if (change == 0.0) {
      throw new IllegalArgumentException("a stroke needs two different setpoints");
    }
    if (trace.isEmpty()) {
      return Outcome.damaged("no position was read during the stroke");
    }
    if ((trace.percent(0) - fromPercent) / change >= NEAR) {
      return Outcome.none("position was already past 5 % of the stroke when it began");
    }
    int near = firstBeyond(trace, fromPercent, change, NEAR);
    if (near < 0) {
      return unreached(trace, "5 %", longestPauseSeconds);
    }
    int far = firstBeyond(trace, fromPercent, change, FAR);
    if (far < 0) {
      return unreached(trace, "95 %", longestPauseSeconds);
    }
    Trace used = trace.slice(near - 1, far + 1);
    Optional<String> unfit =
        TraceGuards.gap(used, longestPauseSeconds).or(() -> TraceGuards.saturated(used));
    if (unfit.isPresent()) {
      return Outcome.damaged(unfit.get());
    }
    CrossingFinder finder = new CrossingFinder(trace, noise);
    double sign = Math.signum(change);
    Crossing start = finder.at(near - 1, fromPercent + NEAR * change, sign);
    Crossing end = finder.at(far - 1, fromPercent + FAR * change, sign);
    return new Outcome(
        Optional.of(timed(start, end, commandSeconds, Math.abs(change), noise)), "", false);
  }

  /** A gap may have hidden it. */
  private static Outcome unreached(Trace trace, String level, double longestPauseSeconds) {
    return TraceGuards.gap(trace, longestPauseSeconds)
        .map(Outcome::damaged)
        .orElseGet(() -> Outcome.none("position never reached " + level + " of the stroke"));
  }

  private static Timed timed(
      Crossing start, Crossing end, double commandSeconds, double change, PositionNoise noise) {
    double seconds = (end.seconds() - start.seconds()) / SHARE;
    double perPercent = seconds / change;
    double deadSeconds = start.seconds() - commandSeconds - NEAR * seconds;
    // Bounds of a rectangular distribution, half-width ÷ √3 (JCGM 100:2008 4.3.7).
    double stamps =
        Math.hypot(start.stampHalfSeconds(), end.stampHalfSeconds()) / Math.sqrt(3.0) / SHARE;
    double between =
        Math.hypot(start.betweenHalfSeconds(), end.betweenHalfSeconds()) / Math.sqrt(3.0) / SHARE;
    double noisy = Math.hypot(start.noiseStandard(), end.noiseStandard()) / SHARE;
    return new Timed(
        seconds, deadSeconds, stamps, between, noisy, noise.degrees(), perPercent / SHARE);
  }

  private static int firstBeyond(Trace trace, double from, double change, double share) {
    for (int i = 0; i < trace.size(); i++) {
      if ((trace.percent(i) - from) / change >= share) {
        return i;
      }
    }
    return -1;
  }
}
