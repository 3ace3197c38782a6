package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** The winding's temperature against the closed forms of one mass that warms up (textbook). */
class HeatTest {
  private static final ModelParameters B = ModelParameters.baseline();
  private static final double DT = 0.001;

  /** 600 s, 80 K by running without load, 20 °C around, 120 °C and 30 K for the switch. */
  private static final HeatParameters H = new HeatParameters(600, 80, 20, 120, 30, 0.01);

  private static final CamParameters NO_CAMS = new CamParameters(-30, 120, -20, 110, 1, 0);

  // Θ = Θ_a + ΔΘ·(1 − e^(−t/τ)): 63.2 % after τ.
  @Test
  void warmsUpTo63PercentAfterItsTimeConstant() {
    Heat heat = new Heat(H, DT);
    run(heat, 1.0, 600);
    assertThat(heat.celsius()).isCloseTo(20.0 + 80.0 * (1.0 - Math.exp(-1.0)), within(1e-6));
    assertThat(heat.driftPercent()).isCloseTo(0.506, within(0.001));
    run(heat, 0.0, 600);
    assertThat(heat.celsius())
        .isCloseTo(20.0 + 80.0 * (1.0 - Math.exp(-1.0)) * Math.exp(-1.0), within(1e-6));
  }

  private static void run(Heat heat, double current, double seconds) {
    for (long i = 0; i < Math.round(seconds / DT); i++) {
      heat.step(current);
    }
  }

  // Twice the current is four times the loss: 320 K. 100 K are reached after −τ·ln(1 − 100/320);
  // cooling from there by 30 K takes −τ·ln(70/100).
  @Test
  void thermalSwitchOpensAndClosesWhenTheClosedFormSays() {
    Heat heat = new Heat(H, DT);
    long steps = 0;
    for (; !heat.open(); steps++) {
      heat.step(2.0);
    }
    assertThat(steps * DT).isCloseTo(-600.0 * Math.log(1.0 - 100.0 / 320.0), within(0.01));
    steps = 0;
    for (; heat.open(); steps++) {
      heat.step(0.0);
    }
    assertThat(steps * DT).isCloseTo(-600.0 * Math.log(0.7), within(0.01));
  }

  // Against a stop it draws 4 times its current: 16·80 K. 100 K take −600·ln(1 − 100/1280) s.
  @Test
  void stalledMotorIsCutAndComesBackByItself() {
    UnitModel unit = new UnitModel(B.with(H).with(NO_CAMS), 1);
    assertThat(unit.celsius()).isEqualTo(20.0);
    unit.motorPower(true);
    unit.command(21.0);
    double seconds = 0.0;
    for (; !unit.thermalTripped() && seconds < 120.0; seconds += DT) {
      unit.step();
    }
    // Some 9 s of it it was on its way and hardly warmed up.
    assertThat(seconds).isCloseTo(-600.0 * Math.log(1.0 - 100.0 / 1280.0) + 9.0, within(1.0));
    unit.step();
    assertThat(unit.truth().direction()).isZero();
    assertThat(unit.motorAmperes()).isEqualTo(0.1);
    double hot = unit.stemDegrees();
    unit.command(4.0);
    for (int i = 0; i < 100_000; i++) {
      unit.step();
    }
    assertThat(unit.stemDegrees()).isEqualTo(hot);
    for (int i = 0; i < 140_000; i++) {
      unit.step();
    }
    assertThat(unit.thermalTripped()).isFalse();
    assertThat(unit.stemDegrees()).isLessThan(1.0);
  }

  @Test
  void withoutRiseItStaysAtAmbient() {
    UnitModel unit = new UnitModel(B.with(NO_CAMS), 1);
    unit.motorPower(true);
    unit.command(21.0);
    unit.advanceTo(300_000_000_000L);
    assertThat(unit.celsius()).isEqualTo(23.0);
    assertThat(unit.thermalTripped()).isFalse();
  }

  // 0.01 %/K: the feedback follows the temperature, the stem does not.
  @Test
  void feedbackDriftsWithTheWarmUp() {
    Rig rig = new Rig(B.with(new HeatParameters(60, 100, 20, 200, 20, 0.01)), 1);
    for (int i = 0; i < 10; i++) {
      rig.rest(0.0);
      rig.rest(100.0);
    }
    rig.rest(50.0);
    Truth truth = rig.unit.truth();
    double warm = rig.unit.celsius() - 20.0;
    assertThat(warm).isGreaterThan(50.0);
    assertThat(rig.meanFeedback() - truth.stemPercent()).isCloseTo(0.01 * warm, within(0.03));
    assertThat(truth.stemPercent()).isCloseTo(50.0, within(0.1));
  }
}
