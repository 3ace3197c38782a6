package org.benchstroke.core.model;

/**
 * A simulated unit. It advances in steps of 1 ms; the same parameters, seed and commands give the
 * same bits. Motor supply and electronics are separate: the feedback lives with the motor off. What
 * turns it is a motor, or air against a spring. One thread.
 */
public final class UnitModel {
  /** The step, ns. */
  public static final long STEP_NANOS = 1_000_000L;

  private static final double STEP_SECONDS = STEP_NANOS / 1e9;

  /** Apart from the sensor's, so that noise on the signal changes no other draw. */
  private static final long INPUT_SEED = 0x5DEECE66DL;

  private final double spanDegrees;
  private final double percentPerDegree;
  private final double longestSeconds;
  private final Drive drive;
  private final Train train;
  private final Sensor sensor;
  private final Transmitter transmitter;
  private final InputLoop input;
  private final LossDetector loss;
  private final AutoCalibration calibration;
  private final CamSwitch closed;
  private final CamSwitch open;
  private final CamSwitch closedAuxiliary;
  private final CamSwitch openAuxiliary;
  private boolean motorPower;
  private long steps;
  private long nextLook;
  private double turnedTo = Double.NaN;

  /** A unit at rest at its start position, its loop open, its motor supply off. */
  public UnitModel(ModelParameters parameters, long seed) {
    MechanicsParameters mechanics = parameters.mechanics();
    this.spanDegrees = mechanics.travel().spanDegrees();
    this.percentPerDegree = 100.0 / spanDegrees;
    this.longestSeconds = 4.0 * parameters.strokeSeconds() + 60.0;
    this.drive = drive(parameters);
    this.train = new Train(mechanics, parameters.sensor().place(), drive.degrees());
    this.sensor = new Sensor(parameters.sensor(), new Noise(seed));
    this.transmitter =
        new Transmitter(
            parameters.transmitter(), STEP_SECONDS, sensor.clean(percent(train.sensed())));
    this.input = new InputLoop(parameters.input(), new Noise(INPUT_SEED + seed));
    this.loss = new LossDetector(parameters.loss(), STEP_SECONDS);
    CamParameters cams = parameters.cams();
    this.closed = new CamSwitch(false, cams.closedDegrees(), cams, STEP_SECONDS);
    this.open = new CamSwitch(true, cams.openDegrees(), cams, STEP_SECONDS);
    this.closedAuxiliary = new CamSwitch(false, cams.closedAuxiliaryDegrees(), cams, STEP_SECONDS);
    this.openAuxiliary = new CamSwitch(true, cams.openAuxiliaryDegrees(), cams, STEP_SECONDS);
    this.calibration =
        new AutoCalibration(percent(parameters.calibration().backOffDegrees()), STEP_SECONDS);
    calibrate(parameters, seed);
  }

  private static Drive drive(ModelParameters parameters) {
    return parameters
        .pneumatic()
        .<Drive>map(air -> new PneumaticDrive(parameters, air, STEP_SECONDS))
        .orElseGet(() -> new MotorDrive(parameters, STEP_SECONDS));
  }

  private void calibrate(ModelParameters parameters, long seed) {
    CalibrationParameters told = parameters.calibration();
    if (told.by() == CalibrationParameters.By.UNIT) {
      // As somebody let it do before: with a twin, which stays where it then is.
      ModelParameters fresh =
          parameters.with(
              new CalibrationParameters(
                  CalibrationParameters.By.HAND, 0.0, spanDegrees, told.backOffDegrees()));
      UnitModel twin = new UnitModel(fresh, seed);
      twin.calibrateItself();
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

  /**
   * Lets it calibrate itself with its supply on, and steps until that has ended; one that finds no
   * end is broken off.
   *
   * @return how long it took, s
   */
  public double calibrateItself() {
    boolean before = motorPower;
    motorPower = true;
    long from = steps;
    startCalibration();
    while (calibrating() && (steps - from) * STEP_SECONDS < longestSeconds) {
      step();
    }
    calibration.stop();
    motorPower = before;
    return (steps - from) * STEP_SECONDS;
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

  /** Switches the supply of the motor; on a pneumatic unit, its air. */
  public void motorPower(boolean on) {
    motorPower = on;
  }

  public boolean motorPower() {
    return motorPower;
  }

  /** A switch by its cam. */
  public enum Cam {
    CLOSED,
    OPEN,
    CLOSED_AUXILIARY,
    OPEN_AUXILIARY
  }

  /**
   * Turned by hand, with its supply off: what has its supply can't be.
   *
   * @param degrees where to, at the gear, °; it ends at a stop
   */
  public void turnByHand(double degrees) {
    if (!motorPower) {
      drive.turnByHand(degrees);
    }
  }

  /** The angle at the gear, °: what a hand wheel turns. */
  public double gearDegrees() {
    return drive.degrees();
  }

  /** Screws the mechanical stops elsewhere, °. */
  public void setStops(double closedDegrees, double openDegrees) {
    drive.setStops(closedDegrees, openDegrees);
  }

  /** The mechanical stop beyond closed, °. */
  public double closedStopDegrees() {
    return drive.closedStop();
  }

  /** The mechanical stop beyond open, °. */
  public double openStopDegrees() {
    return drive.openStop();
  }

  /** Turns a cam on the shaft, so that its switch trips at this angle, °. */
  public void turnCam(Cam which, double degrees) {
    cam(which).set(degrees, train.output(), steps);
  }

  /** The angle at which a cam's switch trips, °. */
  public double camDegrees(Cam which) {
    return cam(which).camDegrees();
  }

  private CamSwitch cam(Cam which) {
    return switch (which) {
      case CLOSED -> closed;
      case OPEN -> open;
      case CLOSED_AUXILIARY -> closedAuxiliary;
      case OPEN_AUXILIARY -> openAuxiliary;
    };
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
    drive.step(motorPower, closed.tripped(), open.tripped());
    transmitter.drift(drive.driftPercent());
    steps++;
    if (drive.degrees() != turnedTo) {
      turn(drive.degrees());
    }
  }

  /** What stands still most of the time need not be looked at in every step. */
  private void turn(double gear) {
    turnedTo = gear;
    train.turn(gear);
    double shaft = train.output();
    closed.turn(shaft, steps);
    open.turn(shaft, steps);
    closedAuxiliary.turn(shaft, steps);
    openAuxiliary.turn(shaft, steps);
  }

  private void control() {
    boolean decides = steps == nextLook;
    if (decides) {
      nextLook += drive.periodSteps();
      sensor.renewNoise();
    }
    double turned = percent(train.sensed());
    double sensed = sensor.noisy(turned);
    transmitter.step(sensed);
    double milliamps = input.inputMilliamps(steps * STEP_SECONDS, drive.direction() != 0);
    drive.filter(milliamps, sensed);
    boolean lost = loss.step(milliamps);
    if (calibration.running()) {
      calibration.step(drive.heading(), sensor.rawNoisy(turned), sensor);
      if (decides) {
        drive.override(calibration.direction());
      }
    } else if (decides && lost) {
      drive.lost(loss.direction(milliamps));
    } else if (decides) {
      drive.decide();
    }
  }

  /** The feedback current, mA. */
  public double feedbackMilliamps() {
    return transmitter.milliamps();
  }

  /** The current that flows in the loop, mA. */
  public double loopMilliamps() {
    return input.loopMilliamps();
  }

  /** The voltage at the motor's terminals, V; 0 with its supply off, and without a motor. */
  public double supplyVolts() {
    return motorPower ? drive.volts() : 0.0;
  }

  /** The current that the motor's supply gives, A; 0 with it off, and without a motor. */
  public double motorAmperes() {
    return motorPower ? drive.amperes() : 0.0;
  }

  /** The temperature of the motor's winding, °C. */
  public double celsius() {
    return drive.celsius();
  }

  /** Whether the thermal switch keeps the motor off. */
  public boolean thermalTripped() {
    return drive.thermalTripped();
  }

  public double stemDegrees() {
    return train.stem();
  }

  public boolean closedMade() {
    return closed.made(steps);
  }

  public boolean openMade() {
    return open.made(steps);
  }

  public boolean closedAuxiliaryMade() {
    return closedAuxiliary.made(steps);
  }

  public boolean openAuxiliaryMade() {
    return openAuxiliary.made(steps);
  }

  /** What is really so at this step. */
  public Truth truth() {
    return new Truth(
        train.stem(),
        percent(train.stem()),
        percent(train.output()),
        transmitter.withErrors(sensor.clean(percent(train.sensed()))),
        input.loopMilliamps(),
        drive.direction());
  }

  private double percent(double degrees) {
    return degrees * percentPerDegree;
  }
}
