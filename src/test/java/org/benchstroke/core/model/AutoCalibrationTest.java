package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.benchstroke.core.model.CalibrationParameters.By;
import org.junit.jupiter.api.Test;

/** The unit's own calibration: 0 and 100 % lie 0.33° inside where it stood. */
class AutoCalibrationTest {
  private static final ModelParameters B = ModelParameters.baseline();
  private static final CamParameters NO_CAMS = new CamParameters(-30, 120, -20, 110, 1, 0);

  private static ModelParameters byUnit(ModelParameters parameters) {
    return parameters.with(parameters.calibration().by(By.UNIT));
  }

  // The stops are at −2 and 92°.
  @Test
  void spanSitsInsideTheStops() {
    Rig rig = new Rig(byUnit(B.with(NO_CAMS)), 1);
    assertThat(restingStem(rig, 0.0)).isCloseTo(-1.67, within(0.1));
    assertThat(restingStem(rig, 100.0)).isCloseTo(91.67, within(0.1));
    assertThat(restingStem(rig, 50.0)).isCloseTo(45.0, within(0.1));
  }

  // The end switches are at −0.33 and 90.33°; it coasts c = 0.077° on the model's equation (see
  // MotorPhysicsTest), less a filter and a relay, which an end switch does not pass.
  @Test
  void spanSitsInsideTheEndSwitches() {
    Rig rig = new Rig(byUnit(B), 1);
    assertThat(restingStem(rig, 0.0)).isCloseTo(-0.077, within(0.1));
    assertThat(restingStem(rig, 100.0)).isCloseTo(90.077, within(0.1));
  }

  @Test
  void itTakesOverTheErrorsOfItsSensor() {
    SensorParameters off = new SensorParameters(3.0, -5.0, 0.0, 0.01);
    Rig rig = new Rig(byUnit(B.with(NO_CAMS).with(off)), 1);
    assertThat(restingStem(rig, 25.0)).isCloseTo(-1.67 + 0.25 * 93.34, within(0.1));
    assertThat(rig.feedbackPercent()).isCloseTo(25.0, within(0.1));
  }

  @Test
  void aPersonCanSetTheSpan() {
    Rig rig = new Rig(B.with(CalibrationParameters.byHand(2.0, 86.0)), 1);
    assertThat(restingStem(rig, 0.0)).isCloseTo(2.0, within(0.1));
    assertThat(restingStem(rig, 100.0)).isCloseTo(86.0, within(0.1));
  }

  @Test
  void whileItCalibratesItDoesNotFollowItsSignal() {
    Rig rig = new Rig(B.with(NO_CAMS), 1);
    rig.rest(50.0);
    rig.unit.startCalibration();
    rig.run(8.5);
    assertThat(rig.unit.stemDegrees()).isEqualTo(-2.0);
    assertThat(rig.unit.calibrating()).isTrue();
    rig.run(30.0);
    assertThat(rig.unit.calibrating()).isFalse();
    assertThat(rig.unit.calibrationSucceeded()).isTrue();
    assertThat(restingStem(rig, 0.0)).isCloseTo(-1.67, within(0.1));
  }

  @Test
  void whereItFindsNoSpanItKeepsTheFormerOne() {
    Rig opposed = new Rig(B.with(B.motor().withLeads(true)), 1);
    opposed.unit.startCalibration();
    opposed.run(60.0);
    assertThat(opposed.unit.calibrating()).isFalse();
    assertThat(opposed.unit.calibrationSucceeded()).isFalse();
    Truth truth = opposed.unit.truth();
    assertThat(truth.feedbackPercent()).isCloseTo(truth.outputPercent(), within(1e-9));
  }

  @Test
  void withoutMotorSupplyItFindsNone() {
    Rig rig = new Rig(B, 1);
    rig.unit.motorPower(false);
    rig.unit.startCalibration();
    rig.run(10.0);
    assertThat(rig.unit.calibrating()).isFalse();
    assertThat(rig.unit.calibrationSucceeded()).isFalse();
  }

  private static double restingStem(Rig rig, double percent) {
    rig.rest(percent);
    rig.run(5.0);
    return rig.unit.stemDegrees();
  }

  @Test
  void itSaysHowLongItTookAndLeavesTheSupplyAsItWas() {
    UnitModel unit = new UnitModel(ModelParameters.baseline(), 1);
    double seconds = unit.calibrateItself();
    // From 40 % to closed, then to open: 140 % of 15 s, and two rests of 1 s.
    assertThat(seconds).isBetween(20.0, 30.0);
    assertThat(unit.calibrationSucceeded()).isTrue();
    assertThat(unit.calibrating()).isFalse();
    assertThat(unit.motorPower()).isFalse();
  }
}
