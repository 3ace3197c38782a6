package org.benchstroke.unit;

import java.util.Arrays;
import java.util.Optional;

/** The measures that a unit type can limit, with their key in its file and their unit. */
public enum MeasureKind {
  TRAVEL_ERROR("travel_error_pct", "travel error", "%", true),
  ZERO_ERROR("zero_error_pct", "zero error", "%", true),
  SPAN_ERROR("span_error_pct", "span error", "%", true),
  HYSTERESIS_PLUS_DEAD_BAND(
      "hysteresis_plus_dead_band_pct", "hysteresis + dead band, by adjacent passes", "%", true),
  HYSTERESIS_PLUS_DEAD_BAND_MEANS(
      "hysteresis_plus_dead_band_means_pct", "hysteresis + dead band, by means", "%", true),
  LINEARITY_INDEPENDENT("linearity_independent_pct", "linearity, independent", "%", true),
  LINEARITY_TERMINAL("linearity_terminal_pct", "linearity, terminal-based", "%", true),
  LINEARITY_ZERO_BASED("linearity_zero_based_pct", "linearity, zero-based", "%", true),
  REPEATABILITY("repeatability_pct", "repeatability", "%", false),
  HYSTERESIS("hysteresis_pct", "hysteresis, by adjacent passes", "%", false),
  HYSTERESIS_MEANS("hysteresis_means_pct", "hysteresis, by means", "%", false),
  FEEDBACK_ERROR("feedback_error_pct", "feedback error", "%", true),
  QUADRANT("quadrant_deg", "quadrant", "°", true),
  STROKE_TIME_OPENING("stroke_time_opening_s", "stroke time, opening (5–95 % ÷ 0.9)", "s", false),
  STROKE_TIME_CLOSING("stroke_time_closing_s", "stroke time, closing (5–95 % ÷ 0.9)", "s", false),
  STROKE_ASYMMETRY("stroke_asymmetry_pct", "stroke time asymmetry", "%", true),
  FEEDBACK_NOISE("feedback_noise_pct", "noise of the feedback in motion", "%", false),
  SEAT_LAG("seat_lag_pct", "stem trails at the seat", "%", false),
  SUPPLY_AT_REST("supply_at_rest_V", "supply at rest", "V", false),
  SUPPLY_LOWEST("supply_lowest_V", "lowest supply in motion", "V", false),
  SUPPLY_SAG("supply_sag_pct", "sag of the supply", "%", false),
  SWITCH_ERROR("switch_error_deg", "switch angle error", "°", true),
  AUXILIARY_LEAD("auxiliary_lead_deg", "auxiliary lead", "°", false),
  SWITCH_DIFFERENTIAL("switch_differential_deg", "switch differential", "°", false),
  POWER_LOSS_DRIFT("power_loss_drift_pct", "drift without power", "%", true),
  DEAD_BAND("dead_band_pct", "dead band", "%", false),
  RESOLUTION("resolution_pct", "resolution", "%", false),
  START_THRESHOLD("start_threshold_pct", "start threshold", "%", false),
  STOP_LEAD("stop_lead_pct", "stop lead", "%", true),
  DEAD_TIME("dead_time_s", "dead time", "s", false),
  STEP_T63("step_t63_s", "T63", "s", false),
  STEP_T86("step_t86_s", "T86", "s", false),
  STEP_T98("step_t98_s", "T98", "s", false),
  STEP_OVERSHOOT("step_overshoot_pct", "overshoot", "%", false),
  STEP_SETTLING("step_settling_s", "settling time", "s", false),
  STEADY_STATE_ERROR("steady_state_error_pct", "steady-state error", "%", true),
  SLEW("slew_pct_per_s", "slew", "%/s", false),
  HUNTING_PEAK_TO_PEAK("hunting_peak_to_peak_pct", "hunting, peak to peak", "%", false),
  HUNTING_REVERSALS("hunting_reversals_per_min", "hunting, reversals", "/min", false),
  STARTS("starts_per_hour", "motor starts while held", "/h", false),
  DUTY_STARTS("duty_starts_per_hour", "starts of its duty", "/h", false),
  DUTY_ON_RATIO("duty_on_ratio_pct", "on-ratio of its duty", "%", false),
  STROKE_TIME_DRIFT("stroke_time_drift_s", "stroke time drift per 100 cycles", "s", true),
  END_POSITION_DRIFT("end_position_drift_pct", "end position drift per 100 cycles", "%", true),
  RAMP_LAG("ramp_lag_s", "lag behind a ramp", "s", false),
  RAMP_RESIDUAL("ramp_residual_pct", "residual of a ramp", "%", false),
  RAMP_STARTS("ramp_starts_per_min", "motor starts on a ramp", "/min", false);

  private final String key;
  private final String title;
  private final String unit;
  private final boolean symmetric;

  MeasureKind(String key, String title, String unit, boolean symmetric) {
    this.key = key;
    this.title = title;
    this.unit = unit;
    this.symmetric = symmetric;
  }

  /** The key in a unit type file. */
  public String key() {
    return key;
  }

  public String title() {
    return title;
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
