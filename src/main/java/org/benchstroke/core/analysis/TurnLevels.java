package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * How far a position went at its upper turns, or at its lower ones: the mean over the shapes of a
 * turn ({@link TurnFit}), each weighted by how well it explains the readings of all these turns
 * together (Akaike 1974, from memory: two for each fitted value). Immutable.
 *
 * @param mean of the turns, %; upside down for lower ones
 * @param noise the standard uncertainty of the mean by the noise of the readings, %
 * @param shapes the standard deviation of the mean from shape to shape, %
 * @param misfit what the best shape leaves beyond the noise, a standard deviation, %
 * @param halfBetween the mean is off by at most ± this where turns lie between two readings, %
 */
record TurnLevels(double mean, double noise, double shapes, double misfit, double halfBetween) {
  private static final double[] BEFORE = {1.0, 1.5, 2.0, 3.0, 6.0};

  /** What goes through a filter leaves a turn at its fastest. */
  private static final double[] AFTER = {0.7, 1.0, 1.5, 2.0, 3.0};

  /** No shape fits a real wave to better than this share of its swing. */
  private static final double ROUNDING = 1.0e-4;

  /** One shape, fitted to all turns. */
  private record Shape(double squares, double factors, double mean, double leverage, double half) {}

  /**
   * Fits all shapes.
   *
   * @param turns the readings of each, at least one
   * @param deviation of one reading, %
   * @param swing how far it goes to and fro, about, %
   */
  static TurnLevels of(List<TurnFit> turns, double deviation, double swing) {
    List<Shape> shapes = new ArrayList<>();
    for (double p : BEFORE) {
      for (double q : AFTER) {
        shapes.add(shape(turns, p, q, false));
        shapes.add(shape(turns, p, q, true));
      }
    }
    double readings = turns.stream().mapToInt(TurnFit::readings).sum();
    double known = Math.pow(Math.max(deviation, ROUNDING * swing), 2);
    double left =
        shapes.stream()
            .mapToDouble(s -> s.squares / Math.max(1.0, readings - s.factors))
            .min()
            .orElseThrow();
    return mean(shapes, Math.max(known, left), Math.sqrt(Math.max(0.0, left - known)));
  }

  private static Shape shape(List<TurnFit> turns, double p, double q, boolean plateau) {
    double squares = 0.0;
    double level = 0.0;
    double leverage = 0.0;
    double half = 0.0;
    for (TurnFit turn : turns) {
      TurnFit.Fit fit = turn.of(p, q, plateau);
      squares += fit.squares();
      level += fit.level();
      leverage += fit.leverage();
      half += fit.halfBetween();
    }
    double n = turns.size();
    return new Shape(squares, n * (plateau ? 5.0 : 4.0), level / n, leverage / (n * n), half / n);
  }

  private static TurnLevels mean(List<Shape> shapes, double variance, double misfit) {
    double[] weights =
        shapes.stream().mapToDouble(s -> -s.squares / variance / 2.0 - s.factors).toArray();
    double highest = Arrays.stream(weights).max().orElseThrow();
    double sum = 0.0;
    for (int i = 0; i < weights.length; i++) {
      weights[i] = Math.exp(weights[i] - highest);
      sum += weights[i];
    }
    double mean = 0.0;
    double noise = 0.0;
    double half = 0.0;
    double squares = 0.0;
    for (int i = 0; i < weights.length; i++) {
      Shape shape = shapes.get(i);
      double weight = weights[i] / sum;
      mean += weight * shape.mean;
      squares += weight * shape.mean * shape.mean;
      noise += weight * variance * shape.leverage;
      half += weight * shape.half;
    }
    double spread = Math.sqrt(Math.max(0.0, squares - mean * mean));
    return new TurnLevels(mean, Math.sqrt(noise), spread, misfit, half);
  }
}
