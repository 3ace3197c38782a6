package org.benchstroke.aids.diagnosis;

/**
 * What can be behind a run's figures, with what tells it from its look-alikes and what to do about
 * it in general (common practice, no source; the unit's manual comes first).
 */
public enum Cause {
  HEALTHY("nothing wrong", "none is needed", "nothing to adjust"),
  BACKLASH_BEFORE_SENSOR(
      "backlash before the sensor",
      "a filter delays both ways alike, backlash the reversal only",
      "look at the gear train up to the sensor"),
  SLACK_AFTER_SENSOR(
      "slack after the sensor",
      "rock the stem by hand, motor power locked off: slack gives, a sticking stem does not",
      "leave the zero alone; retorque the coupling or replace its insert"),
  STICTION(
      "stiction",
      "a sticking stem moves in jerks, a slack one evenly",
      "look at packing and alignment"),
  STICKY_SEAT(
      "sticky soft seat",
      "stiction is everywhere, a sticky seat near closed only",
      "exercise the valve; check the torque margin"),
  ZERO_SHIFT(
      "zero shift",
      "a ground offset moves the stem as well, a shifted zero of the feedback does not",
      "set the zero after the cams"),
  SPAN("span", "a span error is a slope, a loop at its limit a knee", "set the span"),
  REVERSED_ACTION(
      "reversed action",
      "a reversed unit still regulates; with swapped leads it runs away",
      "check the action setting, then the motor leads"),
  MOTOR_AND_SENSOR_OPPOSED(
      "motor and sensor opposed",
      "it runs to the wrong end and never regulates; a reversed unit does",
      "stop; swap the motor leads"),
  CAM_SET_SHORT(
      "cam set short",
      "with the end switch made the current is off; at a stop it stays on",
      "stops out, set the cam, then calibrate again"),
  STOP_BEFORE_SWITCH(
      "stop before the switch",
      "at a stop the motor stays on and gets hot; a cam cuts it",
      "back the stop out; never let the motor stand against it"),
  QUADRANT_OFF(
      "quadrant off",
      "look at the stem mark with the unit closed: nothing electrical differs",
      "unmate, close both, mate again"),
  AUXILIARY_TRAILS(
      "auxiliary trails end",
      "creep to the end again at half the speed: if slow polling is the cause, it shrinks",
      "set the cam of the auxiliary earlier"),
  DEAD_BAND_TOO_SMALL(
      "dead band too small",
      "on a battery source hunting stays; hum and noise of the wiring go",
      "widen the dead band 20 % past the onset of hunting, then test it again"),
  LONG_COAST(
      "long coast",
      "going up it rests above and coming down below; a zero has one sign",
      "look at the brake; until it is repaired, widen the dead band"),
  NOISE_ON_SIGNAL(
      "noise on the signal",
      "put a battery source on the input: noise of the wiring goes, hunting stays",
      "run power and signal apart; screen at one end"),
  GROUND_OFFSET(
      "ground loop",
      "the same point on a battery source, and with the motor off: an offset of the earth goes",
      "use an isolator; earth at one place only"),
  DEAD_SPOT(
      "dead spot of the sensor",
      "a lost sample leaves a gap; here a reading arrived that no unit can show",
      "replace the sensor; believe no end position until then"),
  WORN_SENSOR(
      "worn sensor",
      "noise on the signal is everywhere, a worn track noisy at one angle",
      "replace the sensor"),
  NON_LINEAR_LINKAGE(
      "non-linear linkage",
      "a span error shows at 100 %, a linkage on the two sides of mid travel",
      "align the linkage at mid travel"),
  THERMAL_TRIP(
      "thermal trip",
      "the feedback and the switches go on answering; a lost link is silent",
      "let it rest; fewer starts; hands clear, for it starts again by itself"),
  UNDERVOLTAGE(
      "undervoltage",
      "measure at the terminals while it runs: with a tight valve the voltage is normal",
      "put the supply right: shorter or thicker leads, the right voltage"),
  WRONG_FAIL_ACTION(
      "wrong fail action",
      "sweep the current slowly down: a wrong threshold acts at another current, a wrong action"
          + " always",
      "set the fail action, then test the loss again"),
  LOOP_RESISTANCE(
      "loop resistance too high",
      "put a meter into the loop and set 20 mA, hands clear: a loop at its limit carries less; if"
          + " it carries 20 mA, it is a stop or a cam",
      "lower the resistance, or use a source with more voltage"),
  THERMAL_DRIFT(
      "thermal drift",
      "drift grows as the unit warms up, slack is there from the start",
      "soak for 30 minutes, then test again"),
  WORD_ORDER(
      "word order or scale",
      "read two known points: the wrong order gives nonsense, a wrong offset a constant",
      "let find-map work the map out from known points"),
  ALIASING(
      "sampling too slow",
      "read it at another rate: a quiet unit stays quiet",
      "read at least ten samples in each cycle"),
  INSTRUMENT_OFF(
      "instrument out of calibration",
      "put a check standard on the bench: with a bad instrument every unit is off alike",
      "quarantine the instrument; look back at what it judged"),
  FROZEN_DATA(
      "frozen data",
      "a quiet reading still moves by its last digit, a frozen one never",
      "check the link and what feeds the value"),
  INPUT_ZERO(
      "zero of the controller's input",
      "the same point on a battery source: a zero of the board stays, an earth's offset goes; the"
          + " unit's own display beside the loop meter shows either",
      "set the zero of the controller's input"),
  DEAD_BAND_TOO_LARGE(
      "dead band too large",
      "a long coast carries it beyond its setpoint both ways, a wide dead band alone does not",
      "narrow the dead band, then test it again: too narrow, it hunts");

  private final String title;
  private final String apart;
  private final String advice;

  Cause(String title, String apart, String advice) {
    this.title = title;
    this.apart = apart;
    this.advice = advice;
  }

  public String title() {
    return title;
  }

  /** What tells it from its look-alikes. */
  public String apart() {
    return apart;
  }

  public String advice() {
    return advice;
  }
}
