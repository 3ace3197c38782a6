package org.benchstroke.core.uncertainty;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

/**
 * Propagation of distributions by a fixed number of draws (JCGM 101:2008 clause 7): for measures
 * that are no straight function of their inputs. The same seed gives the same figures on every
 * machine. Stateless, safe for any thread.
 */
public final class MonteCarlo {
  /** Draws where nothing else is said; the ends of a 95 % interval are then good to some 1 %. */
  public static final int DRAWS = 100_000;

  /** From so many degrees of freedom on, a t distribution is made from a normal one. */
  private static final double EXPANDED = 10.0;

  private static final long SEED = 101_2008L;

  private MonteCarlo() {}

  /** One input: its values are drawn anew in each trial. */
  @FunctionalInterface
  public interface Input {
    double draw(SplittableRandom random);
  }

  /**
   * What the draws say.
   *
   * @param mean of the output
   * @param standard its standard deviation: u
   * @param low lower end of the interval with equal tails
   * @param high its upper end
   * @param shortestLow lower end of the shortest interval (JCGM 101:2008 5.3.4)
   * @param shortestHigh its upper end
   */
  public record Result(
      double mean,
      double standard,
      double low,
      double high,
      double shortestLow,
      double shortestHigh) {}

  public static Input normal(double mean, double standard) {
    return r -> mean + standard * r.nextGaussian();
  }

  public static Input rectangular(double low, double high) {
    return r -> low + (high - low) * r.nextDouble();
  }

  /** A scaled and shifted t distribution (JCGM 101:2008 6.4.9). */
  public static Input student(double mean, double standard, double degreesOfFreedom) {
    if (degreesOfFreedom >= EXPANDED) {
      return r -> mean + standard * expanded(r.nextGaussian(), degreesOfFreedom);
    }
    double half = degreesOfFreedom / 2.0;
    return r -> mean + standard * r.nextGaussian() / Math.sqrt(gamma(r, half) / half);
  }

  /** σ ÷ s, drawn: a normal variate times this is one of Student's distribution. */
  static double larger(SplittableRandom r, double degreesOfFreedom) {
    double half = degreesOfFreedom / 2.0;
    return 1.0 / Math.sqrt(gamma(r, half) / half);
  }

  /**
   * A t variate from a normal one, which is quicker (Abramowitz and Stegun 26.7.5, from memory);
   * its 97.5 % point is good to 0.01 % with ten degrees of freedom.
   */
  private static double expanded(double z, double nu) {
    double q = z * z;
    double first = (q + 1.0) * z / 4.0;
    double second = ((5.0 * q + 16.0) * q + 3.0) * z / 96.0;
    double third = (((3.0 * q + 19.0) * q + 17.0) * q - 15.0) * z / 384.0;
    return z + (first + (second + third / nu) / nu) / nu;
  }

  /** A gamma variate of this shape (Marsaglia and Tsang 2000, from memory). */
  private static double gamma(SplittableRandom r, double shape) {
    if (shape < 1.0) {
      return gamma(r, shape + 1.0) * Math.pow(1.0 - r.nextDouble(), 1.0 / shape);
    }
    double d = shape - 1.0 / 3.0;
    double c = 1.0 / Math.sqrt(9.0 * d);
    while (true) {
      double x = r.nextGaussian();
      double v = Math.pow(1.0 + c * x, 3);
      if (v > 0.0 && Math.log(1.0 - r.nextDouble()) < x * x / 2.0 + d - d * v + d * Math.log(v)) {
        return d * v;
      }
    }
  }

  /** The error of one input of a budget, times its sensitivity. */
  public static Input of(Component c) {
    double u = c.contribution() * Math.signum(c.sensitivity());
    return switch (c.evaluation()) {
      case TYPE_B_RECTANGULAR -> rectangular(-Math.sqrt(3.0) * u, Math.sqrt(3.0) * u);
      case TYPE_B_NORMAL -> normal(0.0, u);
      case TYPE_A ->
          Double.isInfinite(c.degreesOfFreedom())
              ? normal(0.0, u)
              : student(0.0, u, c.degreesOfFreedom());
    };
  }

  /**
   * Propagates inputs through a model.
   *
   * @param inputs independent of one another
   * @param model the measure of one set of input values
   * @param coverage of the intervals, above 0 and below 1
   * @param draws at least 1000
   */
  public static Result propagate(
      List<Input> inputs, ToDoubleFunction<double[]> model, double coverage, int draws) {
    if (draws < 1000) {
      throw new IllegalArgumentException("1000 draws at least, not " + draws);
    }
    SplittableRandom random = new SplittableRandom(SEED);
    double[] values = new double[draws];
    double[] drawn = new double[inputs.size()];
    for (int i = 0; i < draws; i++) {
      for (int j = 0; j < drawn.length; j++) {
        drawn[j] = inputs.get(j).draw(random);
      }
      values[i] = model.applyAsDouble(drawn);
    }
    return result(values, coverage);
  }

  private static Result result(double[] values, double coverage) {
    int draws = values.length;
    double mean = Arrays.stream(values).sum() / draws;
    double squares = Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
    Arrays.sort(values);
    int held = (int) Math.round(coverage * draws);
    int start = (draws - held) / 2;
    int shortest = 0;
    for (int i = 1; i + held < draws; i++) {
      if (values[i + held] - values[i] < values[shortest + held] - values[shortest]) {
        shortest = i;
      }
    }
    return new Result(
        mean,
        Math.sqrt(squares / (draws - 1)),
        values[start],
        values[start + held],
        values[shortest],
        values[shortest + held]);
  }
}
