package org.benchstroke.model;

/** The position sensor: zero, span, bow, a dead spot and noise. Positions in % of the span. */
final class Sensor {
  private final SensorParameters parameters;
  private final double gain;
  private final Noise noise;
  private double error;

  Sensor(SensorParameters parameters, Noise noise) {
    this.parameters = parameters;
    this.gain = 1.0 + parameters.spanPercent() / 100.0;
    this.noise = noise;
  }

  /** Draws the noise for the next while: as often as the controller looks. */
  void renewNoise() {
    error = parameters.noisePercent() * noise.normal();
  }

  double noisy(double percent) {
    return clean(percent) + error;
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
