package org.benchstroke.model;

/**
 * A simulated unit. It advances in steps of 1 ms; the same parameters, seed and commands give the
 * same bits. Motor supply and electronics are separate: the feedback lives with the motor off. One
 * thread.
 */
public final class UnitModel {
  /** The step, ns. */
  public static final long STEP_NANOS = 1_000_000L;

  private static final double STEP_SECONDS = STEP_NANOS / 1e9;

  /** Apart from the sensor's, so that noise on the signal changes no other draw. */
  private static final long INPUT_SEED = 0x5DEECE66DL;

  private final double spanDegrees;
  private final Motor motor;
  private final Supply supply;
  private final Load load;
  private final Train train;
  private final Sensor sensor;
  private final Transmitter transmitter;
  private final InputLoop input;
  private final LossDetector loss;
  private final Controller controller;
  private final Heat heat;
  private final AutoCalibration calibration;
  private final CamSwitch closed;
  private final CamSwitch open;
  private final CamSwitch closedAuxiliary;
  private final CamSwitch openAuxiliary;
  private final int turns;
  private boolean motorPower;
  private long steps;
  private int direction;

  /** A unit at rest at its start position, its loop open, its motor supply off. */
  public UnitModel(ModelParameters parameters, long seed) {
    MechanicsParameters mechanics = parameters.mechanics();
    this.spanDegrees = mechanics.spanDegrees();
    this.motor = new Motor(parameters.motor(), mechanics, STEP_SECONDS);
    this.supply = new Supply(parameters.supply(), parameters.motor().voltageRatio());
    this.load = new Load(parameters.load());
    this.train = new Train(mechanics, parameters.sensor().place(), motor.degrees());
    this.turns = parameters.motor().leadsSwapped() ? -1 : 1;
    this.sensor = new Sensor(parameters.sensor(), new Noise(seed));
    this.transmitter =
        new Transmitter(
            parameters.transmitter(), STEP_SECONDS, sensor.clean(percent(train.sensed())));
    this.input = new InputLoop(parameters.input(), new Noise(INPUT_SEED + seed));
    this.loss = new LossDetector(parameters.loss(), STEP_SECONDS);
    this.controller = new Controller(parameters.control(), STEP_SECONDS);
    this.heat = new Heat(parameters.heat(), STEP_SECONDS);
    CamParameters cams = parameters.cams();
    this.closed = new CamSwitch(false, cams.closedDegrees(), cams, STEP_SECONDS);
    this.open = new CamSwitch(true, cams.openDegrees(), cams, STEP_SECONDS);
    this.closedAuxiliary = new CamSwitch(false, cams.closedAuxiliaryDegrees(), cams, STEP_SECONDS);
    this.openAuxiliary = new CamSwitch(true, cams.openAuxiliaryDegrees(), cams, STEP_SECONDS);
    this.calibration =
        new AutoCalibration(percent(parameters.calibration().backOffDegrees()), STEP_SECONDS);
    calibrate(parameters, seed);
  }

  private void calibrate(ModelParameters parameters, long seed) {
    CalibrationParameters told = parameters.calibration();
    if (told.by() == CalibrationParameters.By.UNIT) {
      // As somebody let it do before: with a twin, which stays where it then is.
      ModelParameters fresh =
          parameters.withCalibration(
              new CalibrationParameters(
                  CalibrationParameters.By.HAND, 0.0, spanDegrees, told.backOffDegrees()));
      UnitModel twin = new UnitModel(fresh, seed);
      twin.motorPower(true);
      twin.startCalibration();
      double longest = 4.0 * parameters.motor().strokeSeconds() * spanDegrees / 90.0 + 60.0;
      while (twin.calibrating() && twin.steps * STEP_SECONDS < longest) {
        twin.step();
      }
      sensor.calibrate(twin.sensor);
    } else if (told.zeroDegrees() != 0.0 || told.fullDegrees() != spanDegrees) {
      sensor.calibrate(percent(told.zeroDegrees()), percent(told.fullDegrees()));
    }
  }

  /**
   * Starts the unit's own calibration: it drives closed, then open, and takes its span from inside
   * these limits. Until it has ended, it does not follow its signal. It needs its motor supply.
   */
  public void startCalibration() {
    calibration.start();
  }

  public boolean calibrating() {
    return calibration.running();
  }

  /** Whether the last calibration found a span; where it found none, the former one is kept. */
  public boolean calibrationSucceeded() {
    return calibration.succeeded();
  }

  /** The current that the source would drive, mA; 0 is an open loop. */
  public void command(double milliamps) {
    input.command(milliamps);
  }

  /** Switches the supply of the motor. */
  public void motorPower(boolean on) {
    motorPower = on;
  }

  public boolean motorPower() {
    return motorPower;
  }

  /** Steps up to the instant, ns since the beginning; an instant that has passed does nothing. */
  public void advanceTo(long nanos) {
    long goal = nanos / STEP_NANOS;
    while (steps < goal) {
      step();
    }
  }

  /** One step of 1 ms. */
  public void step() {
    control();
    direction = driven(controller.step());
    if (!supply.stiff()) {
      motor.voltage(supply.step(direction != 0, motor.effort()));
    }
    motor.step(direction, direction == 0 ? 0.0 : load.torque(motor.degrees(), direction));
    if (heat.warms()) {
      heat.step(direction == 0 ? 0.0 : supply.relative(motor.effort()));
      transmitter.drift(heat.driftPercent());
    }
    train.step(motor.degrees());
    double shaft = train.output();
    closed.step(shaft);
    open.step(shaft);
    closedAuxiliary.step(shaft);
    openAuxiliary.step(shaft);
    steps++;
  }

  private void control() {
    boolean decides = controller.decidesAt(steps);
    if (decides) {
      sensor.renewNoise();
    }
    double turned = percent(train.sensed());
    double sensed = sensor.noisy(turned);
    transmitter.step(sensed);
    double milliamps = input.inputMilliamps(steps * STEP_SECONDS, direction != 0);
    controller.filter(milliamps, sensed);
    boolean lost = loss.step(milliamps);
    if (calibration.running()) {
      calibration.step(controller.relay(), sensor.rawNoisy(turned), sensor);
      if (decides) {
        controller.override(calibration.direction());
      }
    } else if (decides && lost) {
      controller.override(loss.direction(milliamps));
    } else if (decides) {
      controller.decide();
    }
  }

  /** What reaches the motor: its supply, the end switches and the thermal switch cut it. */
  private int driven(int relay) {
    boolean cut = (relay > 0 && open.tripped()) || (relay < 0 && closed.tripped());
    return motorPower && !cut && !heat.open() ? relay * turns : 0;
  }

  /** The feedback current, mA. */
  public double feedbackMilliamps() {
    return transmitter.milliamps();
  }

  /** The current that flows in the loop, mA. */
  public double loopMilliamps() {
    return input.loopMilliamps();
  }

  /** The voltage at the motor's terminals, V; 0 with its supply off. */
  public double supplyVolts() {
    return motorPower ? supply.volts() : 0.0;
  }

  /** The current that the motor's supply gives, A; 0 with it off. */
  public double motorAmperes() {
    return motorPower ? supply.amperes(direction != 0, motor.effort()) : 0.0;
  }

  /** The temperature of the motor's winding, °C. */
  public double celsius() {
    return heat.celsius();
  }

  /** Whether the thermal switch keeps the motor off. */
  public boolean thermalTripped() {
    return heat.open();
  }

  public double stemDegrees() {
    return train.stem();
  }

  public boolean closedMade() {
    return closed.made();
  }

  public boolean openMade() {
    return open.made();
  }

  public boolean closedAuxiliaryMade() {
    return closedAuxiliary.made();
  }

  public boolean openAuxiliaryMade() {
    return openAuxiliary.made();
  }

  /** What is really so at this step. */
  public Truth truth() {
    return new Truth(
        train.stem(),
        percent(train.stem()),
        percent(train.output()),
        transmitter.withErrors(sensor.clean(percent(train.sensed()))),
        input.loopMilliamps(),
        direction);
  }

  private double percent(double degrees) {
    return degrees / spanDegrees * 100.0;
  }
}
