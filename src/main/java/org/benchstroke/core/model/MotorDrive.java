package org.benchstroke.core.model;

/** A motor with its supply, its load, its warmth, and the three-position controller over it. */
final class MotorDrive implements Drive {
  private final Motor motor;
  private final Supply supply;
  private final Load load;
  private final Controller controller;
  private final Heat heat;
  private final int turns;
  private int direction;

  MotorDrive(ModelParameters parameters, double stepSeconds) {
    this.motor = new Motor(parameters.motor(), parameters.mechanics(), stepSeconds);
    this.supply = new Supply(parameters.supply(), parameters.motor().voltageRatio());
    this.load = new Load(parameters.load());
    this.controller = new Controller(parameters.control(), stepSeconds);
    this.heat = new Heat(parameters.heat(), stepSeconds);
    this.turns = parameters.motor().leadsSwapped() ? -1 : 1;
  }

  @Override
  public long periodSteps() {
    return controller.periodSteps();
  }

  @Override
  public void filter(double milliamps, double sensedPercent) {
    controller.filter(milliamps, sensedPercent);
  }

  @Override
  public void decide() {
    controller.decide();
  }

  @Override
  public void override(int towards) {
    controller.override(towards);
  }

  @Override
  public void lost(int towards) {
    controller.override(towards);
  }

  @Override
  public int heading() {
    return controller.relay();
  }

  @Override
  public void step(boolean supplied, boolean cutsClosing, boolean cutsOpening) {
    direction = driven(controller.step(), supplied, cutsClosing, cutsOpening);
    if (!supply.stiff()) {
      motor.voltage(supply.step(direction != 0, motor.effort()));
    }
    motor.step(direction, direction == 0 ? 0.0 : load.torque(motor.degrees(), direction));
    if (heat.warms()) {
      heat.step(direction == 0 ? 0.0 : supply.relative(motor.effort()));
    }
  }

  /** What reaches the motor: its supply, the end switches and the thermal switch cut it. */
  private int driven(int relay, boolean supplied, boolean cutsClosing, boolean cutsOpening) {
    boolean cut = (relay > 0 && cutsOpening) || (relay < 0 && cutsClosing);
    return supplied && !cut && !heat.open() ? relay * turns : 0;
  }

  @Override
  public void turnByHand(double degrees) {
    motor.turnTo(degrees);
  }

  @Override
  public void setStops(double closedDegrees, double openDegrees) {
    motor.stops(closedDegrees, openDegrees);
  }

  @Override
  public double closedStop() {
    return motor.closedStop();
  }

  @Override
  public double openStop() {
    return motor.openStop();
  }

  @Override
  public double degrees() {
    return motor.degrees();
  }

  @Override
  public int direction() {
    return direction;
  }

  @Override
  public double driftPercent() {
    return heat.warms() ? heat.driftPercent() : 0.0;
  }

  @Override
  public double volts() {
    return supply.volts();
  }

  @Override
  public double amperes() {
    return supply.amperes(direction != 0, motor.effort());
  }

  @Override
  public double celsius() {
    return heat.celsius();
  }

  @Override
  public boolean thermalTripped() {
    return heat.open();
  }
}
