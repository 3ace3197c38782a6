package org.benchstroke.uncertainty;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

/**
 * Errors of several readings, drawn together a fixed number of times (JCGM 101:2008 clause 7): for
 * a measure that is no straight function of its readings, such as the largest of them, which
 * favours those that noise enlarged. The same inputs give the same figures on every machine.
 * Immutable, safe for any thread.
 */
public final class DrawnErrors {
  /** The ends of a 95 % interval are then good to some 2 %. */
  private static final int DRAWS = 2_000;

  private static final long SEED = 101_2008L;

  private final double[][] errors;

  /**
   * Draws.
   *
   * @param readings the inputs of each reading, all independent of one another
   */
  public DrawnErrors(List<List<Component>> readings) {
    errors = new double[DRAWS][readings.size()];
    SplittableRandom random = new SplittableRandom(SEED);
    for (int j = 0; j < readings.size(); j++) {
      for (Component component : readings.get(j)) {
        if (component.contribution() > 0.0) {
          MonteCarlo.Input input = MonteCarlo.of(component);
          for (double[] drawn : errors) {
            drawn[j] += input.draw(random);
          }
        }
      }
    }
  }

  /**
   * U: the half-width around a measured value that holds its changes by the drawn errors with a
   * probability. A one-sided change, the bias of a largest value, widens it in full.
   *
   * @param coverage the probability, above 0 and below 1
   * @param change what errors of the readings, in their order, add to the measure
   */
  public double halfWidth(double coverage, ToDoubleFunction<double[]> change) {
    double[] changes =
        Arrays.stream(errors)
            .mapToDouble(e -> Math.abs(change.applyAsDouble(e)))
            .sorted()
            .toArray();
    return changes[(int) Math.ceil(coverage * changes.length) - 1];
  }

  /** The standard deviation of the difference of two readings, whose mean is zero. */
  public double deviation(int one, int other) {
    double squares = 0.0;
    for (double[] e : errors) {
      squares += (e[one] - e[other]) * (e[one] - e[other]);
    }
    return Math.sqrt(squares / errors.length);
  }
}
