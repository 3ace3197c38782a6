package org.benchstroke.core.analysis;

import java.util.SplittableRandom;

/** Made-up noise of deviation 1 whose neighbouring readings go together, about 0. Stateless. */
public final class MadeUpNoise {
  /** The step of a reading that comes in steps. */
  public static final double STEP = 1.0;

  private static final int BEFORE = 400;

  private MadeUpNoise() {}

  /**
   * Readings that follow each other.
   *
   * @param kind its name and number: "ar 0.9" an autoregression, "average 4" a moving average of so
   *     many, "half 0.9" half autoregression and half independent, "hum 0.02" mostly a sine of so
   *     many periods a reading, "steps 0.9" an autoregression read in steps, "drift 0.03"
   *     independent and a slope
   */
  public static double[] of(String kind, int readings, SplittableRandom r) {
    String[] words = kind.split(" ", 2);
    double number = Double.parseDouble(words[1]);
    return switch (words[0]) {
      case "ar" -> autoregression(number, readings, r);
      case "average" -> average((int) number, readings, r);
      case "half" -> half(number, readings, r);
      case "hum" -> hum(number, readings, r);
      case "steps" -> steps(number, readings, r);
      case "drift" -> drift(number, readings, r);
      default -> throw new IllegalArgumentException(kind);
    };
  }

  private static double[] autoregression(double follows, int readings, SplittableRandom r) {
    double[] values = new double[readings];
    double now = r.nextGaussian();
    double fresh = Math.sqrt(1.0 - follows * follows);
    for (int i = -BEFORE; i < readings; i++) {
      now = follows * now + fresh * r.nextGaussian();
      if (i >= 0) {
        values[i] = now;
      }
    }
    return values;
  }

  private static double[] average(int of, int readings, SplittableRandom r) {
    double[] raw = new double[readings + of];
    for (int i = 0; i < raw.length; i++) {
      raw[i] = r.nextGaussian();
    }
    double[] values = new double[readings];
    for (int i = 0; i < readings; i++) {
      for (int k = 0; k < of; k++) {
        values[i] += raw[i + k] / Math.sqrt(of);
      }
    }
    return values;
  }

  private static double[] half(double follows, int readings, SplittableRandom r) {
    double[] values = autoregression(follows, readings, r);
    for (int i = 0; i < readings; i++) {
      values[i] = Math.sqrt(0.5) * (values[i] + r.nextGaussian());
    }
    return values;
  }

  private static double[] hum(double frequency, int readings, SplittableRandom r) {
    double phase = r.nextDouble(2.0 * Math.PI);
    double[] values = new double[readings];
    for (int i = 0; i < readings; i++) {
      double sine = Math.sin(2.0 * Math.PI * frequency * i + phase);
      values[i] = 0.8 * Math.sqrt(2.0) * sine + 0.6 * r.nextGaussian();
    }
    return values;
  }

  private static double[] steps(double follows, int readings, SplittableRandom r) {
    double[] values = autoregression(follows, readings, r);
    double off = r.nextDouble(STEP);
    for (int i = 0; i < readings; i++) {
      values[i] = Math.rint((values[i] + off) / STEP) * STEP - off;
    }
    return values;
  }

  private static double[] drift(double each, int readings, SplittableRandom r) {
    double[] values = new double[readings];
    for (int i = 0; i < readings; i++) {
      values[i] = each * (i - (readings - 1) / 2.0) + r.nextGaussian();
    }
    return values;
  }
}
