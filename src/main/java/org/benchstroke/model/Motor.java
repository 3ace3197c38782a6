package org.benchstroke.model;

/**
 * The motor, its gear and brake: run-up with one time constant, coast with another and a constant
 * deceleration; stops clamp it. Angle and speed at the output shaft.
 *
 * <p>On: ω' = (d·ω∞ − ω)/τ_up. Off: ω' = −ω/τ_b − a_c·sgn ω. AC: ω∞ = (90°/T)·(1 −
 * σ_s·T_L/(T_st·V_r²)), 0 once T_L ≥ T_st·V_r²; DC: ω∞ = (90°/T)·V_r, 0 once T_L ≥ T_st·V_r. Common
 * practice, no source.
 */
final class Motor {
  private static final double NOMINAL_DEGREES = 90.0;

  private final double nominal;
  private final double runUp;
  private final double brake;
  private final double coast;
  private final double slip;
  private final double stall;
  private final double closedStop;
  private final double openStop;
  private final double dt;
  private double degrees;
  private double speed;

  Motor(MotorParameters motor, MechanicsParameters mechanics, double stepSeconds) {
    boolean dc = motor.kind() == MotorParameters.Kind.DC;
    double voltage = motor.voltageRatio();
    this.nominal = NOMINAL_DEGREES / motor.strokeSeconds() * (dc ? voltage : 1.0);
    this.runUp = motor.runUpSeconds();
    this.brake = motor.brakeSeconds();
    this.coast = motor.coastDegreesPerSecondSquared();
    this.slip = dc ? 0.0 : motor.slip();
    this.stall = motor.stallTorque() * (dc ? voltage : voltage * voltage);
    this.closedStop = mechanics.closedStopDegrees();
    this.openStop = mechanics.openStopDegrees();
    this.dt = stepSeconds;
    this.degrees = mechanics.startPercent() / 100.0 * mechanics.spanDegrees();
  }

  /**
   * One step.
   *
   * @param direction 1 opens, −1 closes, 0 is off
   * @param torque what the load asks for, × rated
   */
  void step(int direction, double torque) {
    if (direction != 0) {
      double goal = torque >= stall ? 0.0 : nominal * (1.0 - slip * torque / stall);
      speed += (direction * goal - speed) / runUp * dt;
    } else if (speed != 0.0) {
      slow();
    } else {
      return;
    }
    degrees += speed * dt;
    if (degrees <= closedStop || degrees >= openStop) {
      degrees = Math.max(closedStop, Math.min(openStop, degrees));
      speed = 0.0;
    }
  }

  private void slow() {
    double magnitude = Math.abs(speed);
    double left = magnitude - (magnitude / brake + coast) * dt;
    // A pure exponential never ends; a ten-thousandth of a degree per second is standstill.
    speed = left <= 1e-4 ? 0.0 : Math.copySign(left, speed);
  }

  double degrees() {
    return degrees;
  }
}
