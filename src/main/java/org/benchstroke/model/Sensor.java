package org.benchstroke.model;

/**
 * The position sensor: zero, span, bow, a dead spot and noise, more of it on a worn stretch.
 * Positions in % of the span.
 */
final class Sensor {
  private final SensorParameters parameters;
  private final SensorParameters.Worn worn;
  private final double gain;
  private final Noise noise;
  private double draw;

  Sensor(SensorParameters parameters, Noise noise) {
    this.parameters = parameters;
    this.worn = parameters.worn();
    this.gain = 1.0 + parameters.spanPercent() / 100.0;
    this.noise = noise;
  }

  /** Draws the noise for the next while: as often as the controller looks. */
  void renewNoise() {
    draw = noise.normal();
  }

  double noisy(double percent) {
    boolean there = percent >= worn.fromPercent() && percent < worn.toPercent();
    double deviation = there ? worn.noisePercent() : parameters.noisePercent();
    return clean(percent) + deviation * draw;
  }

  double clean(double percent) {
    if (percent >= parameters.deadSpotFromPercent() && percent < parameters.deadSpotToPercent()) {
      return 0.0;
    }
    double share = percent / 100.0;
    double bow = parameters.bowPercent() * 4.0 * share * (1.0 - share);
    return parameters.zeroPercent() + percent * gain + bow;
  }
}
