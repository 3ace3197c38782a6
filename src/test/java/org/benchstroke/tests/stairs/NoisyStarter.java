package org.benchstroke.tests.stairs;

import java.util.SplittableRandom;

/**
 * A unit with an on/off controller that is noisy inside, written apart from the package {@code
 * model} and unlike it: its controller looks at setpoint less position every period, through
 * converters of so many bits and a filter, each time with fresh noise of its sensor and of the
 * signal. The longer it stands just below its start threshold, the likelier one of these looks goes
 * beyond it. Its transmitter shows the same noise of the sensor, through a lag and a converter of
 * its own. Where it comes to rest scatters. All in % of travel and seconds; one thread.
 */
final class NoisyStarter {
  static final double SAMPLE_SECONDS = 0.1;

  /** The error above which its motor starts. */
  final double start;

  private final SplittableRandom random;
  private final double stop;
  private final double scatter;
  private final double sensorNoise;
  private final double signalNoise;
  private final double meterNoise;
  private final double period;
  private final double filter;
  private final double lag;
  private final double converter;
  private final double shownStep;
  private double setpoint;
  private double position;
  private double filtered;
  private double shown;

  /** Any such unit, whose sensor is as noisy as this. */
  NoisyStarter(SplittableRandom random, double sensorNoise) {
    this.random = random;
    this.sensorNoise = sensorNoise;
    this.signalNoise = sensorNoise * random.nextDouble(0.0, 0.3);
    this.meterNoise = random.nextDouble(0.0005, 0.002);
    this.start = random.nextDouble(0.3, 0.6);
    this.stop = random.nextDouble(-0.1, 0.15);
    this.scatter = random.nextDouble(0.0, 0.02);
    this.period = random.nextDouble(0.02, 0.05);
    this.filter = random.nextDouble(0.02, 0.2);
    this.lag = random.nextDouble(0.05, 0.3);
    this.converter = 100.0 / (1 << random.nextInt(12, 17));
    this.shownStep = 100.0 / (1 << random.nextInt(13, 17));
  }

  private static double round(double value, double step) {
    return Math.rint(value / step) * step;
  }

  /** It was sent here one way, and rests. */
  void come(double to, int direction) {
    setpoint = to;
    rest(direction);
    filtered = setpoint - position;
    shown = position;
  }

  private void rest(int direction) {
    position = setpoint - direction * stop + scatter * random.nextGaussian();
  }

  void ask(double to) {
    setpoint = to;
  }

  /** Lets time pass; it moves if it sees reason to. */
  void pass(double seconds) {
    for (double t = 0.0; t < seconds; t += period) {
      double sensed = position + sensorNoise * random.nextGaussian();
      double asked = setpoint + signalNoise * random.nextGaussian();
      double error = round(asked, converter) - round(sensed, converter);
      filtered += (error - filtered) * period / (filter + period);
      shown += (sensed - shown) * period / (lag + period);
      if (Math.abs(filtered) > start) {
        rest(filtered > 0.0 ? 1 : -1);
        filtered = setpoint - position;
        shown = position;
      }
    }
  }

  /** What its transmitter reads at rest, a sample after the other. */
  double[] read(int samples, double resolution) {
    double[] read = new double[samples];
    for (int i = 0; i < samples; i++) {
      pass(SAMPLE_SECONDS);
      read[i] = round(round(shown, shownStep) + meterNoise * random.nextGaussian(), resolution);
    }
    return read;
  }
}
