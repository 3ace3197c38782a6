package org.benchstroke.core.analysis;

import java.util.List;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.core.quantity.Numbers;

/**
 * A measured value with what makes it uncertain. Immutable.
 *
 * @param value in the measure's unit
 * @param parts the contributions, each in the measure's unit and independent of the others
 * @param perPercent how much the value changes per % of error of the position where it was taken: a
 *     budget multiplies the position channel's own accuracy by it
 */
public record Estimate(double value, List<Part> parts, double perPercent) {
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0.0, 1.0);
  private static final double TAIL = 8.0;
  private static final double NEGLIGIBLE = 1.0e-6;

  /** How a contribution is spread. */
  public enum Spreading {
    /** Anywhere within bounds of ± √3 standard uncertainties (JCGM 100:2008 4.3.7). */
    RECTANGULAR,
    NORMAL
  }

  /** Where a contribution comes from, so far as something depends on it. */
  public enum Origin {
    /** Nothing depends on it. */
    ANY,
    /**
     * Of a settling time: a swing that just reaches the edge of the band leaves it last, or not.
     */
    WHICH_SWING
  }

  /**
   * One contribution.
   *
   * @param source where it comes from, in plain words
   * @param spreading how it is spread
   * @param standard its standard uncertainty, ≥ 0
   * @param origin where it comes from, for what depends on it
   */
  public record Part(String source, Spreading spreading, double standard, Origin origin) {
    public Part(String source, Spreading spreading, double standard) {
      this(source, spreading, standard, Origin.ANY);
    }

    public Part {
      if (!(standard >= 0.0)) {
        throw new IllegalArgumentException(
            source + ": a standard uncertainty is 0 or more, not " + Numbers.plain(standard));
      }
    }

    /** Anywhere within ± the half-width is equally likely. */
    static Part within(String source, double halfWidth) {
      return new Part(source, Spreading.RECTANGULAR, halfWidth / Math.sqrt(3.0));
    }

    /** The same, of an origin that something depends on. */
    Part of(Origin from) {
      return new Part(source, spreading, standard, from);
    }

    static Part normal(String source, double standard) {
      return new Part(source, Spreading.NORMAL, standard);
    }
  }

  public Estimate {
    parts = parts.stream().filter(p -> p.standard() != 0.0).toList();
  }

  /** The same in another unit: value and parts are multiplied by a factor above 0. */
  Estimate times(double factor) {
    return new Estimate(
        value * factor,
        parts.stream()
            .map(p -> new Part(p.source(), p.spreading(), p.standard() * factor, p.origin()))
            .toList(),
        perPercent * factor);
  }

  /** u_c: the root of the sum of squares (JCGM 100:2008 5.1.2, equation 10). */
  public double standard() {
    return Math.sqrt(squares());
  }

  /**
   * The half-width U of the interval value ± U that holds the true value with a probability: exact
   * for one rectangular part and any number of normal ones; all rectangular parts but the largest
   * are taken as normal. With a rectangular part that outweighs the rest U is less than 2·u_c
   * (EA-4/02 S9, from memory: 1.65·u_c).
   *
   * @param coverage the probability, above 0 and below 1
   */
  public double halfWidth(double coverage) {
    double widest =
        parts.stream()
            .filter(p -> p.spreading() == Spreading.RECTANGULAR)
            .mapToDouble(Part::standard)
            .max()
            .orElse(0.0);
    double rest = Math.sqrt(Math.max(0.0, squares() - widest * widest));
    double bound = widest * Math.sqrt(3.0);
    if (bound <= NEGLIGIBLE * rest) {
      return rest * NORMAL.inverseCumulativeProbability((1.0 + coverage) / 2.0);
    }
    if (rest <= NEGLIGIBLE * bound) {
      return coverage * bound;
    }
    // In units of the normal part's deviation.
    double a = bound / rest;
    return rest
        * new BrentSolver(1.0e-9, 1.0e-9)
            .solve(200, u -> probability(u, a) - coverage, 0.0, a + TAIL);
  }

  /** P(|N + R| ≤ u) of a standard normal N and a rectangular R within ± a. */
  private static double probability(double u, double a) {
    return (integral(u + a) - integral(u - a)) / a - 1.0;
  }

  /** The integral of the normal distribution function up to z. */
  private static double integral(double z) {
    return z * NORMAL.cumulativeProbability(z) + NORMAL.density(z);
  }

  private double squares() {
    double squares = 0.0;
    for (Part part : parts) {
      squares += part.standard() * part.standard();
    }
    return squares;
  }
}
