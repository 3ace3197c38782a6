package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.benchstroke.core.model.MotorParameters.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Motor and supply against closed forms; each names where it comes from. Angles agree to one step's
 * travel.
 */
class MotorPhysicsTest {
  private static final ModelParameters B = ModelParameters.baseline();
  private static final double DT = 0.001;
  private static final double SPEED = 6.0;

  private static Motor motor(MotorParameters parameters) {
    return new Motor(parameters, B.mechanics(), DT);
  }

  private static void run(Motor motor, int direction, double torque, double seconds) {
    for (int i = 0; i < Math.round(seconds / DT); i++) {
      motor.step(direction, torque);
    }
  }

  // Step response of a first-order lag (textbook): ω = ω∞·(1 − e^(−t/τ)), so the angle is
  // ω∞·(t − τ·(1 − e^(−t/τ))).
  @ParameterizedTest
  @CsvSource({"0.08, 0.08", "0.08, 0.4", "0.5, 0.5", "0.5, 2.5"})
  void runUpIsAFirstOrderLag(double tau, double seconds) {
    MotorParameters m = B.motor();
    Motor motor = motor(new MotorParameters(m.kind(), 15, tau, 0.02, 60, 0, 2, 1));
    double start = motor.degrees();
    run(motor, 1, 0.0, seconds);
    double expected = SPEED * (seconds - tau * (1.0 - Math.exp(-seconds / tau)));
    assertThat(motor.degrees() - start).isCloseTo(expected, within(SPEED * DT));
  }

  // ω' = −ω/τ − a from ω0 (separation of variables) stops after τ·ω0 − a·τ²·ln(1 + ω0/(a·τ)).
  @ParameterizedTest
  @CsvSource({"0.02, 60", "0.1, 20", "0.15, 5"})
  void coastEndsWhereItsEquationSays(double tau, double deceleration) {
    Motor motor = motor(B.motor().withBrake(tau, deceleration));
    run(motor, 1, 0.0, 2.0);
    double from = motor.degrees();
    run(motor, 0, 0.0, 5.0);
    double braking = deceleration * tau;
    double expected = tau * SPEED - braking * tau * Math.log(1.0 + SPEED / braking);
    assertThat(motor.degrees() - from).isCloseTo(expected, within(SPEED * DT));
  }

  // AC: (90°/T)·(1 − σ·T_L/(T_st·V²)). DC: (90°/T)·V. Common practice, no source.
  @ParameterizedTest
  @CsvSource({
    "AC, 1.0, 0.2, 5.94", "AC, 0.9, 0.2, 5.926", "AC, 1.0, 0.0, 6.0", "DC, 0.5, 0.2, 3.0",
    "DC, 1.1, 0.2, 6.6", "AC, 0.6, 0.72, 0.0", "AC, 0.6, 0.71, 5.408", "DC, 0.4, 0.8, 0.0"
  })
  void speedFollowsVoltageAndLoad(Kind kind, double voltage, double torque, double speed) {
    Motor motor = motor(new MotorParameters(kind, 15, 0.01, 0.02, 60, 0.1, 2, voltage));
    run(motor, 1, torque, 1.0);
    double from = motor.degrees();
    run(motor, 1, torque, 2.0);
    assertThat((motor.degrees() - from) / 2.0).isCloseTo(speed, within(0.001));
  }

  // I = I_idle + I_run·(1 − q + r·q): 0.1 + 0.8·(1 + 3·0.1) with q = 0.2/2; stalled 0.1 + 3.2.
  @Test
  void currentIsIdleRunningAndStalled() {
    UnitModel unit = new UnitModel(B.with(new CamParameters(-30, 120, -20, 110, 1, 0)), 1);
    assertThat(unit.motorAmperes()).isZero();
    assertThat(unit.supplyVolts()).isZero();
    unit.motorPower(true);
    assertThat(unit.motorAmperes()).isEqualTo(0.1);
    assertThat(unit.supplyVolts()).isEqualTo(24.0);
    unit.command(21.0);
    unit.advanceTo(8_000_000_000L);
    assertThat(unit.motorAmperes()).isCloseTo(1.14, within(0.001));
    unit.advanceTo(20_000_000_000L);
    assertThat(unit.stemDegrees()).isEqualTo(92.0);
    assertThat(unit.motorAmperes()).isCloseTo(3.3, within(1e-9));
    unit.motorPower(false);
    assertThat(unit.motorAmperes()).isZero();
  }

  // The current is a straight line of the speed, so it falls from stall with the run-up's own
  // time constant: after τ the effort is 1 − 0.632·(1 − q).
  @Test
  void startingCurrentFallsWithTheRunUp() {
    Motor motor = motor(B.motor());
    motor.step(1, 0.2);
    assertThat(motor.effort()).isGreaterThan(0.98);
    run(motor, 1, 0.2, 0.079);
    assertThat(motor.effort()).isCloseTo(1.0 - (1.0 - Math.exp(-1.0)) * 0.9, within(0.005));
    run(motor, 1, 0.2, 1.0);
    assertThat(motor.effort()).isCloseTo(0.1, within(1e-4));
  }

  // Kirchhoff: V = V_s − R·I with I = 0.1 + 0.8·4·V/24 while it stands: 23.9/(1 + 3.2/24).
  @Test
  void leadsDropTheVoltageByTheirCurrent() {
    ModelParameters thin =
        B.with(B.supply().withLeads(1.0)).with(new CamParameters(-30, 120, -20, 110, 1, 0));
    UnitModel unit = new UnitModel(thin, 1);
    unit.motorPower(true);
    unit.command(21.0);
    unit.step();
    assertThat(unit.supplyVolts()).isCloseTo(23.9, within(1e-9));
    unit.advanceTo(20_000_000_000L);
    assertThat(unit.supplyVolts()).isCloseTo(23.9 / (1.0 + 3.2 / 24.0), within(1e-9));
    assertThat(24.0 - unit.supplyVolts()).isCloseTo(unit.motorAmperes() * 1.0, within(1e-9));
  }

  // An AC motor's torque goes with V²: with 3 Ω of lead it stands at a seat that it leaves with
  // none. Standing it has (24 − 0.3)/(1 + 3·3.2/24) = 16.9 V, 0.70 of the rated; 2·0.70² is 0.99.
  @ParameterizedTest
  @CsvSource({"0.0, true", "3.0, false"})
  void longLeadsStallItAtATightSeat(double ohms, boolean leaves) {
    ModelParameters tight =
        B.with(B.supply().withLeads(ohms)).with(new LoadParameters(0.2, 0.9, 5.0, 0.5));
    Rig rig = new Rig(tight, 1);
    rig.rest(-1.25);
    rig.run(10.0);
    assertThat(rig.unit.closedMade()).isTrue();
    rig.rest(50.0);
    assertThat(rig.unit.truth().stemPercent() > 45.0).isEqualTo(leaves);
  }
}
