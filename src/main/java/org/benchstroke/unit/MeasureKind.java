package org.benchstroke.unit;

import java.util.Arrays;
import java.util.Optional;

/** The measures that a unit type can limit, with their key in its file and their unit. */
public enum MeasureKind {
  TRAVEL_ERROR("travel_error_pct", "travel error", "%", true, KnownBy.POSITION),
  ZERO_ERROR("zero_error_pct", "zero error", "%", true, KnownBy.POSITION),
  SPAN_ERROR("span_error_pct", "span error", "%", true, KnownBy.POSITION),
  HYSTERESIS_PLUS_DEAD_BAND(
      "hysteresis_plus_dead_band_pct",
      "hysteresis + dead band, by adjacent passes",
      "%",
      true,
      KnownBy.POSITION),
  HYSTERESIS_PLUS_DEAD_BAND_MEANS(
      "hysteresis_plus_dead_band_means_pct",
      "hysteresis + dead band, by means",
      "%",
      true,
      KnownBy.POSITION),
  LINEARITY_INDEPENDENT(
      "linearity_independent_pct", "linearity, independent", "%", true, KnownBy.POSITION),
  LINEARITY_TERMINAL(
      "linearity_terminal_pct", "linearity, terminal-based", "%", true, KnownBy.POSITION),
  LINEARITY_ZERO_BASED(
      "linearity_zero_based_pct", "linearity, zero-based", "%", true, KnownBy.POSITION),
  REPEATABILITY("repeatability_pct", "repeatability", "%", false, KnownBy.POSITION),
  HYSTERESIS("hysteresis_pct", "hysteresis, by adjacent passes", "%", false, KnownBy.POSITION),
  HYSTERESIS_MEANS("hysteresis_means_pct", "hysteresis, by means", "%", false, KnownBy.POSITION),
  FEEDBACK_ERROR("feedback_error_pct", "feedback error", "%", true, KnownBy.POSITION),
  QUADRANT("quadrant_deg", "quadrant", "°", true, KnownBy.POSITION),
  STROKE_TIME_OPENING(
      "stroke_time_opening_s", "stroke time, opening (5–95 % ÷ 0.9)", "s", false, KnownBy.CLOCK),
  STROKE_TIME_CLOSING(
      "stroke_time_closing_s", "stroke time, closing (5–95 % ÷ 0.9)", "s", false, KnownBy.CLOCK),
  STROKE_ASYMMETRY("stroke_asymmetry_pct", "stroke time asymmetry", "%", true, KnownBy.CLOCK),
  FEEDBACK_NOISE(
      "feedback_noise_pct", "noise of the feedback in motion", "%", false, KnownBy.POSITION),
  SEAT_LAG("seat_lag_pct", "stem lag at the seat", "%", false, KnownBy.POSITION),
  SUPPLY_AT_REST("supply_at_rest_V", "supply at rest", "V", false, KnownBy.METER),
  SUPPLY_LOWEST("supply_lowest_V", "lowest supply in motion", "V", false, KnownBy.METER),
  SUPPLY_SAG("supply_sag_pct", "sag of the supply", "%", false, KnownBy.METER),
  SWITCH_ERROR("switch_error_deg", "switch angle error", "°", true, KnownBy.POSITION),
  AUXILIARY_LEAD("auxiliary_lead_deg", "auxiliary lead", "°", false, KnownBy.POSITION),
  SWITCH_DIFFERENTIAL(
      "switch_differential_deg", "switch differential", "°", false, KnownBy.POSITION),
  POWER_LOSS_DRIFT("power_loss_drift_pct", "drift without power", "%", true, KnownBy.POSITION),
  DEAD_BAND("dead_band_pct", "dead band", "%", false, KnownBy.POSITION),
  RESOLUTION("resolution_pct", "resolution", "%", false, KnownBy.POSITION),
  START_THRESHOLD("start_threshold_pct", "start threshold", "%", false, KnownBy.POSITION),
  STOP_LEAD("stop_lead_pct", "stop lead", "%", true, KnownBy.POSITION),
  DEAD_TIME("dead_time_s", "dead time", "s", false, KnownBy.CLOCK),
  STEP_T63("step_t63_s", "T63", "s", false, KnownBy.CLOCK),
  STEP_T86("step_t86_s", "T86", "s", false, KnownBy.CLOCK),
  STEP_T98("step_t98_s", "T98", "s", false, KnownBy.CLOCK),
  STEP_OVERSHOOT("step_overshoot_pct", "overshoot", "%", false, KnownBy.POSITION),
  STEP_SETTLING("step_settling_s", "settling time", "s", false, KnownBy.CLOCK),
  STEADY_STATE_ERROR("steady_state_error_pct", "steady-state error", "%", true, KnownBy.POSITION),
  SLEW("slew_pct_per_s", "slew", "%/s", false, KnownBy.POSITION),
  BREAKAWAY_TIME("breakaway_time_s", "breakaway time", "s", false, KnownBy.CLOCK),
  PARTIAL_STROKE_TRAVEL(
      "partial_stroke_travel_pct", "travel of a partial stroke", "%", false, KnownBy.POSITION),
  PARTIAL_STROKE_TIME(
      "partial_stroke_time_s", "time of a partial stroke", "s", false, KnownBy.CLOCK),
  PARTIAL_STROKE_RETURN_TIME(
      "partial_stroke_return_time_s", "return time of a partial stroke", "s", false, KnownBy.CLOCK),
  HUNTING_PEAK_TO_PEAK(
      "hunting_peak_to_peak_pct", "hunting, peak to peak", "%", false, KnownBy.POSITION),
  HUNTING_REVERSALS(
      "hunting_reversals_per_min", "hunting, reversals", "/min", false, KnownBy.POSITION),
  STARTS("starts_per_hour", "motor starts while held", "/h", false, KnownBy.POSITION),
  DUTY_STARTS("duty_starts_per_hour", "duty, motor starts", "/h", false, KnownBy.POSITION),
  DUTY_ON_RATIO("duty_on_ratio_pct", "duty, on-ratio", "%", false, KnownBy.POSITION),
  STROKE_TIME_DRIFT(
      "stroke_time_drift_s", "stroke time drift per 100 cycles", "s", true, KnownBy.CLOCK),
  END_POSITION_DRIFT(
      "end_position_drift_pct", "end position drift per 100 cycles", "%", true, KnownBy.POSITION),
  RAMP_LAG("ramp_lag_s", "lag behind a ramp", "s", false, KnownBy.CLOCK),
  RAMP_RESIDUAL("ramp_residual_pct", "residual of a ramp", "%", false, KnownBy.POSITION),
  RAMP_STARTS("ramp_starts_per_min", "motor starts on a ramp", "/min", false, KnownBy.POSITION);

  private final String key;
  private final String title;
  private final String unit;
  private final boolean symmetric;
  private final KnownBy knownBy;

  /** What it takes to know one. */
  public enum KnownBy {
    /** A position. */
    POSITION,
    /** The clock, on samples of a position. */
    CLOCK,
    /** A meter of something else. */
    METER
  }

  MeasureKind(String key, String title, String unit, boolean symmetric, KnownBy knownBy) {
    this.key = key;
    this.title = title;
    this.unit = unit;
    this.symmetric = symmetric;
    this.knownBy = knownBy;
  }

  /** The key in a unit type file. */
  public String key() {
    return key;
  }

  public String title() {
    return title;
  }

  /** What it takes to know it. */
  public KnownBy knownBy() {
    return knownBy;
  }

  public String unit() {
    return unit;
  }

  /** Whether a single number in the file means ± that number. */
  public boolean symmetric() {
    return symmetric;
  }

  public static Optional<MeasureKind> ofKey(String key) {
    return Arrays.stream(values()).filter(k -> k.key.equals(key)).findFirst();
  }
}
