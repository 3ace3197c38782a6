package org.benchstroke.aids.twin;

import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * The error above which the motor starts, h_on, by which changes of the signal moved the unit and
 * which did not: each is a bound from one side. The probability of a start is taken as Φ((|e| −
 * h)/τ); h and the width τ have flat priors (τ in its logarithm), and the posterior is summed on a
 * grid. Noise that the controller sees in a wait of some seconds starts the motor below h_on: by
 * its largest excursion, some 2.4 standard deviations for the 75 independent looks of 3 s (order
 * statistics of the normal distribution). The controller's filter leaves about as much of the
 * sensor's noise as the transmitter's, and the meter adds little: the feedback's noise, once its
 * own lag has died away, stands for what the controller sees. How far the two filters differ is not
 * known: ± three quarters of the shift (rectangular; our own choice, by counting how often U
 * covers). Immutable.
 *
 * @param threshold h_on, % of travel
 * @param stood the largest error at which it stood, %
 * @param moved the smallest error at which it moved, %
 */
record Starts(FittedValue threshold, double stood, double moved) {
  private static final double LARGEST_EXCURSION = 2.4;

  /** How far what the controller sees may differ from what the feedback shows, as a share. */
  private static final double UNLIKE = 0.75;

  /** A threshold that is known no better than this is none. */
  private static final double MOST_RELATIVE = 0.3;

  private static final int STEPS = 600;
  private static final double[] WIDTHS = {
    0.001, 0.0017, 0.003, 0.005, 0.008, 0.013, 0.021, 0.034, 0.055, 0.09
  };
  private static final NormalDistribution NORMAL = new NormalDistribution();

  /**
   * Of all moves between rests.
   *
   * @param noise standard deviation of the feedback at rest, once its lag has died away, %
   * @param resolution step of the reading, %
   */
  static Optional<Starts> of(List<Move> moves, Stops stops, double noise, double resolution) {
    double[] moved = asked(moves, stops, true);
    double[] stood = asked(moves, stops, false);
    if (moved.length < 2 || stood.length < 2) {
      return Optional.empty();
    }
    double low = max(stood);
    double high = min(moved);
    double margin = 0.5 * Math.abs(high - low) + 0.1;
    double from = Math.max(0.0, Math.min(low, high) - margin);
    double to = Math.max(low, high) + margin;
    double[] weight = posterior(moved, stood, from, to);
    double sum = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (int i = 0; i < weight.length; i++) {
      double h = at(from, to, i);
      sum += weight[i];
      first += weight[i] * h;
      second += weight[i] * h * h;
    }
    double mean = first / sum;
    double deviation = Math.sqrt(Math.max(0.0, second / sum - mean * mean));
    double correction = LARGEST_EXCURSION * noise;
    double rounding = resolution / Math.sqrt(12.0);
    double standard =
        StrictMath.hypot(
            deviation, StrictMath.hypot(UNLIKE * correction / Math.sqrt(3.0), rounding));
    return Optional.of(new Starts(new FittedValue(mean + correction, 1.96 * standard), low, high));
  }

  /** Whether the two bounds are near enough to one another. */
  boolean telling() {
    return threshold.half() <= MOST_RELATIVE * threshold.value();
  }

  private static double[] posterior(double[] moved, double[] stood, double from, double to) {
    double[][] logs = new double[WIDTHS.length][STEPS];
    double best = Double.NEGATIVE_INFINITY;
    for (int w = 0; w < WIDTHS.length; w++) {
      for (int i = 0; i < STEPS; i++) {
        logs[w][i] = likelihood(moved, stood, at(from, to, i), WIDTHS[w]);
        best = Math.max(best, logs[w][i]);
      }
    }
    double[] weight = new double[STEPS];
    for (double[] log : logs) {
      for (int i = 0; i < STEPS; i++) {
        weight[i] += StrictMath.exp(log[i] - best);
      }
    }
    return weight;
  }

  private static double likelihood(double[] moved, double[] stood, double h, double width) {
    double log = 0.0;
    for (double e : moved) {
      log += logPhi((e - h) / width);
    }
    for (double e : stood) {
      log += logPhi((h - e) / width);
    }
    return log;
  }

  /** log Φ(z); far below by its leading term, far above 0. */
  private static double logPhi(double z) {
    if (z > 6.0) {
      return 0.0;
    }
    return z < -6.0
        ? -0.5 * z * z - StrictMath.log(-z * Math.sqrt(2.0 * Math.PI))
        : StrictMath.log(NORMAL.cumulativeProbability(z));
  }

  private static double at(double from, double to, int step) {
    return from + (to - from) * step / (STEPS - 1.0);
  }

  /** The errors right after each change, along its way. */
  private static double[] asked(List<Move> moves, Stops stops, boolean moved) {
    return moves.stream()
        .filter(m -> m.moved() == moved)
        .mapToDouble(m -> m.askedPercent(stops))
        .filter(e -> e > 0.0)
        .toArray();
  }

  private static double max(double[] values) {
    double most = values[0];
    for (double v : values) {
      most = Math.max(most, v);
    }
    return most;
  }

  private static double min(double[] values) {
    double least = values[0];
    for (double v : values) {
      least = Math.min(least, v);
    }
    return least;
  }
}
