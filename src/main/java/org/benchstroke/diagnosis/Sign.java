package org.benchstroke.diagnosis;

import static org.benchstroke.diagnosis.Cause.*;

import java.util.Map;

/**
 * Something that a run shows, does not show, or can't show; with how likely it is to be seen by
 * cause. The likelihoods are our own estimates, from how the faults look (common practice, no
 * source); no count of real units is behind them.
 */
public enum Sign {
  CONSTANT_ERROR(
      "the error is the same everywhere", 0.02, of(ZERO_SHIFT, 0.95, GROUND_OFFSET, 0.8)),
  // The controller trusts its input, so that the stem goes where a false signal sends it.
  STEM_SHARES_CONSTANT("the stem is off alike", 0.01, of(GROUND_OFFSET, 0.9, ZERO_SHIFT, 0.15)),
  GROWING_ERROR("the error grows with the setpoint", 0.02, of(SPAN, 0.95)),
  STEM_LAGS(
      "the stem differs more between the two ways than the feedback",
      0.01,
      of(SLACK_AFTER_SENSOR, 0.95, STICTION, 0.9)),
  // Slack takes the same off everywhere; a sticking stem may stop at uneven places, mostly not.
  STEM_UNEVEN(
      "what the stem lags is uneven over the travel", 0.05, of(STICTION, 0.35, STICKY_SEAT, 0.5)),
  STEM_OFF_AT_SEAT("the stem is off near closed only", 0.01, of(STICKY_SEAT, 0.95, STICTION, 0.2)),
  STEM_S_SHAPED(
      "the stem leads and trails on the two sides of mid travel",
      0.01,
      of(NON_LINEAR_LINKAGE, 0.95)),
  STEM_OFFSET(
      "the stem is off by a constant angle, the feedback is not", 0.01, of(QUADRANT_OFF, 0.97)),
  GOES_PAST("it rests beyond its setpoint, both ways", 0.01, of(LONG_COAST, 0.95)),
  LIMIT_CYCLE(
      "it hunts with a steady period", 0.01, of(DEAD_BAND_TOO_SMALL, 0.95, LONG_COAST, 0.1)),
  RESTLESS_AT_ONE_PLACE("it is restless at one place only", 0.01, of(WORN_SENSOR, 0.9)),
  IMPOSSIBLE_SLEW("its position jumped faster than it can move", 0.003, of(DEAD_SPOT, 0.95)),
  ACTION_OPPOSITE(
      "it moved against the signal",
      0.003,
      of(REVERSED_ACTION, 0.98, MOTOR_AND_SENSOR_OPPOSED, 0.9)),
  STOOD_AT_END(
      "it then stood at that end, whatever the signal",
      0.02,
      of(MOTOR_AND_SENSOR_OPPOSED, 0.9, REVERSED_ACTION, 0.05)),
  STOPS_SHORT_SWITCH_MADE(
      "it stops short of the end with its switch made", 0.003, of(CAM_SET_SHORT, 0.97)),
  AUXILIARY_LATE(
      "the auxiliary is open when the end switch trips", 0.01, of(AUXILIARY_TRAILS, 0.95)),
  WRONG_ON_LOSS(
      "it does not do what was ordered on the loss of the signal",
      0.005,
      of(WRONG_FAIL_ACTION, 0.97)),
  LATE_AT_REVERSAL(
      "its dead time is longer after a reversal", 0.02, of(BACKLASH_BEFORE_SENSOR, 0.9));

  /** A sign must be beyond U and beyond what is worth saying: a sound unit hardly ever shows it. */
  private static final double SOUND_UNIT = 0.002;

  private final String words;
  private final double otherwise;

  /** Copied and never changed. */
  @SuppressWarnings("ImmutableEnumChecker")
  private final Map<Cause, Double> likely;

  Sign(String words, double otherwise, Map<Cause, Double> likely) {
    this.words = words;
    this.otherwise = otherwise;
    this.likely = Map.copyOf(likely);
  }

  public String words() {
    return words;
  }

  /** How likely it is to be seen if that is the cause, 0 to 1. */
  public double likelihood(Cause cause) {
    return cause == Cause.HEALTHY ? SOUND_UNIT : likely.getOrDefault(cause, otherwise);
  }

  /** Whether it speaks for that cause more than for most. */
  boolean pointsTo(Cause cause) {
    return likelihood(cause) > 0.3;
  }

  private static Map<Cause, Double> of(Cause cause, double p) {
    return Map.of(cause, p);
  }

  private static Map<Cause, Double> of(Cause one, double p, Cause other, double q) {
    return Map.of(one, p, other, q);
  }
}
