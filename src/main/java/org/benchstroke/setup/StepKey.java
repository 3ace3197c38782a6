package org.benchstroke.setup;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Which step of a set-up it is: what joins records, pictures and papers. The order is the trade's.
 */
public enum StepKey {
  IN_HAND("tools and papers in hand"),
  COUPLING("coupling piece"),
  MATE("mate"),
  WIRE("wire"),
  STOPS_OUT("stops out"),
  TO_CLOSED("by hand to closed"),
  CLOSED_SWITCH("end switch, closed"),
  CLOSED_AUXILIARY("auxiliary switch, closed"),
  CLOSED_STOP("stop, closed"),
  TO_OPEN("by hand to open"),
  OPEN_SWITCH("end switch, open"),
  OPEN_AUXILIARY("auxiliary switch, open"),
  OPEN_STOP("stop, open"),
  MID_TRAVEL("by hand to mid travel"),
  POWER_ON("power on"),
  CALIBRATION("the unit's own calibration"),
  DISPLAY("what its display says"),
  HEATER_AND_WHEEL("heater and hand wheel"),
  READY("ready");

  private final String title;
  private final String key;

  StepKey(String title) {
    this.title = title;
    this.key = name().toLowerCase(Locale.ROOT);
  }

  /** As it stands in a record. */
  public String key() {
    return key;
  }

  /** What people call it. */
  public String title() {
    return title;
  }

  /** The one with this key. */
  public static Optional<StepKey> of(String key) {
    return Arrays.stream(values()).filter(each -> each.key().equals(key)).findFirst();
  }
}
