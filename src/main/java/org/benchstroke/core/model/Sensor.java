package org.benchstroke.core.model;

/**
 * The position sensor: zero, span, bow, dead spots and noise, more of it on a worn stretch.
 * Positions in % of the span.
 */
final class Sensor {
  private final SensorParameters parameters;
  private final SensorParameters.Worn worn;
  private final SensorParameters.DeadSpot[] deadSpots;
  private final double gain;
  private final double bowShape;
  private final boolean quiet;
  private final Noise noise;
  private double draw;
  private double zero;
  private double full = 100.0;
  private double stretch = 1.0;

  /** The place of the last reading, not a number if it has to be read anew. */
  private double readAt = Double.NaN;

  private double reading;

  Sensor(SensorParameters parameters, Noise noise) {
    this.parameters = parameters;
    this.worn = parameters.worn();
    this.deadSpots = parameters.deadSpots().toArray(new SensorParameters.DeadSpot[0]);
    this.bowShape = parameters.bowPercent() * 4.0 / (100.0 * 100.0);
    this.gain = 1.0 + parameters.spanPercent() / 100.0;
    this.quiet = parameters.noisePercent() == 0.0 && worn.noisePercent() == 0.0;
    this.noise = noise;
  }

  /** Draws the noise for the next while: as often as the controller looks. */
  void renewNoise() {
    if (quiet) {
      return;
    }
    draw = noise.normal();
    readAt = Double.NaN;
  }

  /** Takes other readings for 0 and 100 %. */
  void calibrate(double zeroReading, double fullReading) {
    zero = zeroReading;
    full = fullReading;
    stretch = 100.0 / (fullReading - zeroReading);
    readAt = Double.NaN;
  }

  /** Takes over the calibration of another. */
  void calibrate(Sensor other) {
    calibrate(other.zero, other.full);
  }

  double noisy(double percent) {
    if (percent != readAt) {
      readAt = percent;
      reading = calibrated(rawNoisy(percent));
    }
    return reading;
  }

  double clean(double percent) {
    return calibrated(raw(percent));
  }

  private double calibrated(double reading) {
    return (reading - zero) * stretch;
  }

  /** Before any calibration. */
  double rawNoisy(double percent) {
    boolean there = percent >= worn.fromPercent() && percent < worn.toPercent();
    double deviation = there ? worn.noisePercent() : parameters.noisePercent();
    return raw(percent) + deviation * draw;
  }

  private double raw(double percent) {
    for (SensorParameters.DeadSpot spot : deadSpots) {
      if (spot.covers(percent)) {
        return 0.0;
      }
    }
    double bow = bowShape * percent * (100.0 - percent);
    return parameters.zeroPercent() + percent * gain + bow;
  }
}
