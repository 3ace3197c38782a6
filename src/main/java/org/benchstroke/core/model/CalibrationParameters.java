package org.benchstroke.core.model;

/**
 * Which angles the unit takes for 0 and 100 %. Immutable.
 *
 * @param by who found them
 * @param zeroDegrees the angle that a person set for 0 %, °, −45..400
 * @param fullDegrees the one for 100 %, °, at least 10 above
 * @param backOffDegrees by how much a unit that calibrates itself backs off from its limits, °,
 *     0..5
 */
public record CalibrationParameters(
    By by, double zeroDegrees, double fullDegrees, double backOffDegrees)
    implements ModelParameters.Part {

  /** Who found the span. */
  public enum By {
    /** A person set it by the angles. */
    HAND("hand"),
    /** The unit went to its limits and backed off from them. */
    UNIT("unit");

    private final String key;

    By(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  public CalibrationParameters {
    Require.within("angle of 0 %, °,", zeroDegrees, -45, 400);
    Require.within("angle of 100 %, °,", fullDegrees, -45, 400);
    Require.below("angle of 0 % plus 10°", zeroDegrees + 9.999, "angle of 100 %", fullDegrees);
    Require.within("back-off, °,", backOffDegrees, 0, 5);
  }

  static CalibrationParameters baseline() {
    return byHand(0.0, 90.0);
  }

  /**
   * Set by a person; the unit's own routine would back off by 0.33°, common practice, no source.
   */
  public static CalibrationParameters byHand(double zeroDegrees, double fullDegrees) {
    return new CalibrationParameters(By.HAND, zeroDegrees, fullDegrees, 0.33);
  }

  /** The same, but found by the unit itself or by a person. */
  public CalibrationParameters by(By other) {
    return new CalibrationParameters(other, zeroDegrees, fullDegrees, backOffDegrees);
  }
}
