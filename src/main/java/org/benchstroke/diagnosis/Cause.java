package org.benchstroke.diagnosis;

/**
 * What can be behind a run's figures, with the next test that tells it from its look-alikes and
 * what to do about it in general (common practice, no source; the unit's manual comes first).
 */
public enum Cause {
  HEALTHY("nothing stands out", "none is needed", "nothing to adjust"),
  BACKLASH_BEFORE_SENSOR(
      "backlash before the sensor",
      "step response up and down: a filter delays both ways alike",
      "look at the gear train up to the sensor"),
  SLACK_AFTER_SENSOR(
      "slack after the sensor",
      "rock the stem by hand, motor power locked off",
      "retorque the coupling or replace its insert; leave the zero alone"),
  STICTION(
      "stiction",
      "a slow ramp with the angle reference: a sticking stem moves in jumps",
      "look at packing and alignment"),
  STICKY_SEAT(
      "sticky soft seat",
      "travel error at 0 and 5 % again: mid travel stays normal",
      "exercise the valve; check the torque margin"),
  ZERO_SHIFT(
      "zero shift",
      "compare the loop meter with the unit's own display",
      "set the zero after the cams"),
  SPAN("span", "travel error at 50, 75 and 100 %: a slope has no knee", "set the span"),
  REVERSED_ACTION(
      "reversed action",
      "one step at mid travel: a reversed unit still regulates",
      "check the action setting, then the motor leads"),
  MOTOR_AND_SENSOR_OPPOSED(
      "motor and sensor opposed",
      "one step at mid travel: it runs to an end and never regulates",
      "stop; swap the motor leads"),
  CAM_SET_SHORT(
      "cam set short",
      "creep to the end, watching the switch and the motor current",
      "stops out, set the cam, then calibrate again"),
  QUADRANT_OFF(
      "quadrant off",
      "look at the stem mark with the unit closed",
      "unmate, close both, mate again"),
  AUXILIARY_TRAILS(
      "auxiliary trails end",
      "creep to the end again at half the speed",
      "set the cam of the auxiliary earlier"),
  DEAD_BAND_TOO_SMALL(
      "dead band too small",
      "hold at 50 % with ten samples a cycle: noise has no steady period",
      "widen the dead band 20 % past the onset of hunting, then test it again"),
  LONG_COAST(
      "long coast",
      "step response: it overshoots both ways by as much",
      "look at the brake; widen the dead band meanwhile"),
  GROUND_OFFSET(
      "ground loop",
      "the same point on a battery source, and with the motor off",
      "use an isolator; earth at one place only"),
  DEAD_SPOT(
      "dead spot of the sensor",
      "a slow stroke through the place where it jumped",
      "replace the sensor; believe no end position until then"),
  WORN_SENSOR(
      "worn sensor",
      "hold a few % beside the restless place: noise on the signal is there, too",
      "replace the sensor"),
  NON_LINEAR_LINKAGE(
      "non-linear linkage",
      "travel error at 11 points with the angle reference",
      "align the linkage at mid travel"),
  WRONG_FAIL_ACTION(
      "wrong fail action",
      "sweep the current slowly down: find where it reacts, if it does",
      "set the fail action, then test the loss again");

  private final String title;
  private final String nextTest;
  private final String advice;

  Cause(String title, String nextTest, String advice) {
    this.title = title;
    this.nextTest = nextTest;
    this.advice = advice;
  }

  public String title() {
    return title;
  }

  /** What would tell it from its look-alikes. */
  public String nextTest() {
    return nextTest;
  }

  public String advice() {
    return advice;
  }
}
