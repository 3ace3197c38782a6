package org.benchstroke.core.uncertainty;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Predicate;
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
   * @param readings the inputs of each reading. All are independent of one another, but that what
   *     is one estimate ({@link Tie.Kind#ONE_ESTIMATE}) is too small or too large in all of them
   *     alike
   */
  public DrawnErrors(List<List<Component>> readings) {
    this(readings, SEED);
  }

  private DrawnErrors(List<List<Component>> readings, long seed) {
    errors = new double[DRAWS][readings.size()];
    SplittableRandom random = new SplittableRandom(seed);
    Map<String, double[]> estimates = new HashMap<>();
    for (int j = 0; j < readings.size(); j++) {
      for (Component component : readings.get(j)) {
        if (component.contribution() > 0.0) {
          add(j, component, random, estimates);
        }
      }
    }
  }

  private void add(
      int reading, Component c, SplittableRandom random, Map<String, double[]> estimates) {
    boolean shared =
        c.tie().kind() == Tie.Kind.ONE_ESTIMATE && !Double.isInfinite(c.degreesOfFreedom());
    if (shared) {
      double[] factors =
          estimates.computeIfAbsent(c.tie().of(), of -> factors(random, c.degreesOfFreedom()));
      for (int i = 0; i < errors.length; i++) {
        errors[i][reading] += c.contribution() * factors[i] * random.nextGaussian();
      }
    } else {
      MonteCarlo.Input input = MonteCarlo.of(c);
      for (double[] drawn : errors) {
        drawn[reading] += input.draw(random);
      }
    }
  }

  /** By how much the true deviation may be larger than its estimate. */
  private static double[] factors(SplittableRandom random, double degreesOfFreedom) {
    double[] factors = new double[DRAWS];
    for (int i = 0; i < factors.length; i++) {
      factors[i] = MonteCarlo.larger(random, degreesOfFreedom);
    }
    return factors;
  }

  /** The same errors, and behind them that of one more input, independent of them. */
  public DrawnErrors and(List<Component> more) {
    int before = errors[0].length;
    DrawnErrors last = new DrawnErrors(List.of(more), SEED + 1 + before);
    double[][] both = new double[DRAWS][];
    for (int i = 0; i < DRAWS; i++) {
      both[i] = Arrays.copyOf(errors[i], before + 1);
      both[i][before] = last.errors[i][0];
    }
    return new DrawnErrors(both);
  }

  private DrawnErrors(double[][] errors) {
    this.errors = errors;
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

  /** The share of the draws of which something holds, 0 to 1. */
  public double share(Predicate<double[]> holds) {
    return (double) Arrays.stream(errors).filter(holds).count() / errors.length;
  }

  /** The standard deviation of something made of them whose mean is zero. */
  public double deviation(ToDoubleFunction<double[]> of) {
    double squares = 0.0;
    for (double[] e : errors) {
      double value = of.applyAsDouble(e);
      squares += value * value;
    }
    return Math.sqrt(squares / errors.length);
  }
}
