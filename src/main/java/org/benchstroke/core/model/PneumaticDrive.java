package org.benchstroke.core.model;

/**
 * A single-acting pneumatic actuator with its supply, and the positioner over it. No end switch
 * cuts it and no motor warms it.
 */
final class PneumaticDrive implements Drive {
  /** Slower than this is rest, % of span per second. */
  private static final double REST_PERCENT_PER_SECOND = 1e-5;

  private final PneumaticParameters parameters;
  private final ControlParameters control;
  private final SpringActuator actuator;
  private final AirSupply supply;
  private final long periodSteps;
  private final double filterShare;
  private final double span;
  private final int opens;
  private final double ambient;
  private double target;
  private double error;
  private boolean primed;
  private double spool;
  private int towards;
  private boolean byHand;

  PneumaticDrive(ModelParameters model, PneumaticParameters parameters, double stepSeconds) {
    this.parameters = parameters;
    this.control = model.control();
    this.span = model.mechanics().travel().spanDegrees();
    this.opens = parameters.spring() == PneumaticParameters.Spring.CLOSES ? 1 : -1;
    double closed = model.mechanics().travel().closedStopDegrees() / span;
    double open = model.mechanics().travel().openStopDegrees() / span;
    this.actuator =
        opens > 0
            ? new SpringActuator(parameters, closed, open, stepSeconds)
            : new SpringActuator(parameters, 1.0 - open, 1.0 - closed, stepSeconds);
    this.supply = new AirSupply(parameters.air(), stepSeconds);
    this.periodSteps = Math.max(1, Math.round(control.periodSeconds() / stepSeconds));
    this.filterShare = 1.0 - StrictMath.exp(-stepSeconds / control.filterSeconds());
    this.ambient = model.heat().ambientCelsius();
  }

  @Override
  public long periodSteps() {
    return periodSteps;
  }

  @Override
  public void filter(double milliamps, double sensedPercent) {
    double zero = control.signal().zero().milliamps();
    double signal = (milliamps - zero) * 100.0 / control.signal().spanMilliamps();
    target = control.characteristic().travelAt(signal);
    double now = target - sensedPercent;
    error = primed ? error + (now - error) * filterShare : now;
    primed = true;
  }

  @Override
  public void decide() {
    PositionerParameters positioner = parameters.positioner();
    double cutOff = positioner.cutOffPercent();
    if (cutOff > 0.0 && (target <= cutOff || target >= 100.0 - cutOff)) {
      override(target <= cutOff ? -1 : 1);
      return;
    }
    double beyond = Math.abs(error) - positioner.deadZonePercent();
    double opening = Math.min(1.0, Math.max(0.0, beyond) * positioner.gain() / 100.0);
    spool = Math.copySign(opening, error) * opens;
    towards = (int) Math.signum(spool * opens);
  }

  @Override
  public void override(int direction) {
    spool = direction * opens;
    towards = direction;
  }

  /** Without its signal it keeps its air or vents; where it then goes is the spring's matter. */
  @Override
  public void lost(int direction) {
    override(direction == 0 ? 0 : -opens);
  }

  @Override
  public int heading() {
    return towards;
  }

  @Override
  public void step(boolean supplied, boolean cutsClosing, boolean cutsOpening) {
    byHand = byHand && !supplied;
    if (byHand) {
      return;
    }
    boolean held = supply.bar() - AirFlow.ROOM_BAR >= parameters.air().pilotBar();
    double drawn = actuator.step(held ? spool : -1.0, supply.bar());
    supply.step(supplied, drawn);
  }

  @Override
  public void turnByHand(double degrees) {
    byHand = true;
    double share = degrees / span;
    actuator.hold(opens > 0 ? share : 1.0 - share);
  }

  @Override
  public double closedStop() {
    return (opens > 0 ? actuator.least() : 1.0 - actuator.most()) * span;
  }

  @Override
  public double openStop() {
    return (opens > 0 ? actuator.most() : 1.0 - actuator.least()) * span;
  }

  @Override
  public double degrees() {
    return (opens > 0 ? actuator.share() : 1.0 - actuator.share()) * span;
  }

  @Override
  public int direction() {
    double speed = actuator.speed() * opens * 100.0;
    return Math.abs(speed) < REST_PERCENT_PER_SECOND ? 0 : (int) Math.signum(speed);
  }

  @Override
  public double driftPercent() {
    return 0.0;
  }

  @Override
  public double volts() {
    return 0.0;
  }

  @Override
  public double amperes() {
    return 0.0;
  }

  @Override
  public double celsius() {
    return ambient;
  }

  @Override
  public boolean thermalTripped() {
    return false;
  }

  /** The supply's pressure above the room's, bar. */
  double supplyBar() {
    return supply.bar() - AirFlow.ROOM_BAR;
  }
}
