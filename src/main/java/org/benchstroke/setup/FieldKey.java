package org.benchstroke.setup;

import java.util.Locale;

/** What can be typed, or is measured, at a step. The unit ends the name, as in a record. */
public enum FieldKey {
  STEM_MARK,
  LOOP_OHM,
  SHIELD,
  TRIP_DEG,
  RESET_DEG,
  ANGLE_DEG,
  TURNS_BACK,
  STOP_MARGIN_DEG,
  SOURCE_SET,
  RESULT,
  CALIBRATION_S,
  SOFTWARE,
  VOLTAGE_V,
  DEAD_BAND_PCT,
  LOSS_ACTION,
  DIRECTION,
  HEATER,
  HAND_WHEEL,
  TRIP_U_DEG,
  RESET_U_DEG,
  DIFFERENTIAL_DEG,
  LEAD_DEG,
  LEAD_U_DEG,
  LOWEST_DEG,
  HIGHEST_DEG,
  LOWEST_PCT,
  HIGHEST_PCT,
  FIRST_WAY;

  private final String key;

  FieldKey() {
    this.key = name().toLowerCase(Locale.ROOT);
  }

  /** As it stands in a record. */
  public String key() {
    return key;
  }
}
