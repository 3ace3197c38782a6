package org.benchstroke.core.model;

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

  private final boolean dc;
  private final double ratedSpeed;
  private final double ratedStall;
  private final double runUpShare;
  private final double brakeShare;
  private final double coast;
  private final double slip;
  private double closedStop;
  private double openStop;
  private final double dt;
  private double nominal;
  private double stall;
  private double slipPerTorque;
  private double degrees;
  private double speed;
  private double torque;
  private int direction;

  Motor(MotorParameters motor, MechanicsParameters mechanics, double stepSeconds) {
    this.dc = motor.kind() == MotorParameters.Kind.DC;
    this.ratedSpeed = NOMINAL_DEGREES / motor.strokeSeconds();
    this.ratedStall = motor.stallTorque();
    this.runUpShare = stepSeconds / motor.runUpSeconds();
    this.brakeShare = stepSeconds / motor.brakeSeconds();
    this.coast = motor.coastDegreesPerSecondSquared();
    this.slip = dc ? 0.0 : motor.slip();
    this.closedStop = mechanics.travel().closedStopDegrees();
    this.openStop = mechanics.travel().openStopDegrees();
    this.dt = stepSeconds;
    this.degrees = mechanics.startPercent() / 100.0 * mechanics.travel().spanDegrees();
    voltage(motor.voltageRatio());
  }

  /** The voltage at its terminals, × rated. */
  void voltage(double ratio) {
    nominal = ratedSpeed * (dc ? ratio : 1.0);
    stall = ratedStall * (dc ? ratio : ratio * ratio);
    slipPerTorque = slip / stall;
  }

  /**
   * One step.
   *
   * @param drivenTo 1 opens, −1 closes, 0 is off
   * @param loadTorque what the load asks for, × rated
   */
  void step(int drivenTo, double loadTorque) {
    direction = drivenTo;
    torque = loadTorque;
    if (direction != 0) {
      speed += (direction * goal() - speed) * runUpShare;
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

  /** The speed that its load allows, °/s. */
  private double goal() {
    return torque >= stall ? 0.0 : nominal * (1.0 - slipPerTorque * torque);
  }

  private void slow() {
    double magnitude = Math.abs(speed);
    double left = magnitude - magnitude * brakeShare - coast * dt;
    // A pure exponential never ends; a ten-thousandth of a degree per second is standstill.
    speed = left <= 1e-4 ? 0.0 : Math.copySign(left, speed);
  }

  double degrees() {
    return degrees;
  }

  /** Turned by its hand wheel while it is off; no further than a stop. */
  void turnTo(double angle) {
    speed = 0.0;
    degrees = Math.max(closedStop, Math.min(openStop, angle));
  }

  /** Other stops: who screws one in can't push the shaft with it. */
  void stops(double closed, double open) {
    closedStop = Math.min(closed, degrees);
    openStop = Math.max(open, degrees);
  }

  double closedStop() {
    return closedStop;
  }

  double openStop() {
    return openStop;
  }

  /** How hard it works: 1 when it stands, T_L/T_st at the speed that its load allows, 0 off. */
  double effort() {
    if (direction == 0) {
      return 0.0;
    }
    double goal = goal();
    if (goal <= 0.0) {
      return 1.0;
    }
    double along = Math.max(0.0, Math.min(1.0, direction * speed / goal));
    return 1.0 - (1.0 - torque / stall) * along;
  }
}
