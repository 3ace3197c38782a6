package org.benchstroke.core.statistics;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.StatUtils;

/**
 * How much room a process leaves in its tolerance (NIST/SEMATECH e-Handbook 6.1.6). Cp and Cpk are
 * by the scatter from one value or subgroup to the next, Pp and Ppk by that of all values. They
 * mean something only of a process that is in control: look at its chart first. Immutable.
 *
 * @param count n, all values
 * @param mean their mean
 * @param within σ from one to the next: mean range or moving range ÷ d2
 * @param overall the standard deviation of all values
 * @param cp the tolerance ÷ 6σ within; only with limits on both sides
 * @param cpk the distance of the mean from the nearer limit ÷ 3σ within
 * @param pp as {@code cp}, of all values
 * @param ppk as {@code cpk}, of all values
 * @param normality whether they are normal, on which all four rest
 * @param percentiles the index that does not need it; where there are enough values
 */
public record Capability(
    int count,
    double mean,
    double within,
    double overall,
    Optional<Index> cp,
    Index cpk,
    Optional<Index> pp,
    Index ppk,
    Normality normality,
    OptionalDouble percentiles)
    implements CapabilityAnswer {

  /** The fewest values of which 0.5 % and 99.5 % lie between the smallest and the largest. */
  public static final int FEWEST_FOR_PERCENTILES = 199;

  /**
   * An index.
   *
   * @param value its estimate
   * @param low the lower end of its confidence interval
   * @param high the upper one
   */
  public record Index(double value, double low, double high) {}

  /** Which index may be quoted. */
  public enum Basis {
    /** The values may be normal: the four indices. */
    NORMAL,
    /** They are not: the index by percentiles. */
    PERCENTILES,
    /** They are not, and there are too few for percentiles: none. */
    NONE
  }

  /** Which index may be quoted, normality being rejected at 5 %. */
  public Basis basis() {
    if (normality.plausible()) {
      return Basis.NORMAL;
    }
    return percentiles.isPresent() ? Basis.PERCENTILES : Basis.NONE;
  }

  /**
   * Of single values.
   *
   * @param values in the order of time
   * @param coverage of the confidence intervals, above 0 and below 1
   * @throws IllegalArgumentException if a value is no number
   */
  public static CapabilityAnswer ofIndividuals(
      double[] values, Tolerance tolerance, double coverage) {
    Baseline all = new Baseline.First(values.length);
    return of(Scale.byMovingRange(values, all, 2), values, tolerance, coverage);
  }

  /**
   * Of subgroups.
   *
   * @param groups of equal size, 2 to 10 values each
   * @throws IllegalArgumentException if the sizes differ or a value is no number
   */
  public static CapabilityAnswer ofSubgroups(
      double[][] groups, Tolerance tolerance, double coverage) {
    double[] values = Arrays.stream(groups).flatMapToDouble(Arrays::stream).toArray();
    Baseline all = new Baseline.First(groups.length);
    return of(Scale.bySubgroups(groups, all), values, tolerance, coverage);
  }

  private static CapabilityAnswer of(
      Scale.Answer answer, double[] values, Tolerance tolerance, double coverage) {
    if (answer instanceof Scale.None none) {
      return none.why();
    }
    Scale scale = ((Scale.Found) answer).scale();
    int n = values.length;
    double mean = StatUtils.mean(values);
    Scale all = new Scale(mean, Math.sqrt(StatUtils.variance(values)), n - 1.0);
    Scale within = new Scale(mean, scale.sigma(), scale.degrees());
    return new Capability(
        n,
        mean,
        within.sigma(),
        all.sigma(),
        spread(within, tolerance, coverage),
        nearest(within, n, tolerance, coverage),
        spread(all, tolerance, coverage),
        nearest(all, n, tolerance, coverage),
        Normality.of(values),
        percentiles(values, tolerance));
  }

  /** Cp or Pp, its interval by χ² (NIST/SEMATECH e-Handbook 6.1.6). */
  static Optional<Index> spread(Scale scale, Tolerance tolerance, double coverage) {
    if (tolerance.width().isEmpty()) {
      return Optional.empty();
    }
    double value = tolerance.width().getAsDouble() / (6.0 * scale.sigma());
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, scale.degrees());
    double tail = (1.0 - coverage) / 2.0;
    double low = Math.sqrt(chi.inverseCumulativeProbability(tail) / scale.degrees());
    double high = Math.sqrt(chi.inverseCumulativeProbability(1.0 - tail) / scale.degrees());
    return Optional.of(new Index(value, value * low, value * high));
  }

  /**
   * Cpk or Ppk, its interval by the normal approximation ± z·√(1/(9n) + Cpk²/(2ν)) (Bissell, How
   * reliable is your capability index?, Applied Statistics 39 (1990) 331–340, from memory; also in
   * NIST/SEMATECH e-Handbook 6.1.6).
   */
  static Index nearest(Scale scale, int n, Tolerance tolerance, double coverage) {
    double step = 3.0 * scale.sigma();
    double value = tolerance.nearest(scale.centre(), step, step);
    double z =
        new NormalDistribution(null, 0.0, 1.0).inverseCumulativeProbability((1 + coverage) / 2.0);
    double half = z * Math.sqrt(1.0 / (9.0 * n) + value * value / (2.0 * scale.degrees()));
    return new Index(value, value - half, value + half);
  }

  /**
   * The distance of the nearer limit from the median, in that of the 0.5 % or 99.5 % percentile
   * (NIST/SEMATECH e-Handbook 6.1.6, Cnpk, from memory). It is no Cpk: of normal values it is 3 ÷
   * 2.576 = 1.16 times as large.
   */
  private static OptionalDouble percentiles(double[] values, Tolerance tolerance) {
    if (values.length < FEWEST_FOR_PERCENTILES) {
      return OptionalDouble.empty();
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double median = percentile(sorted, 0.5);
    double down = median - percentile(sorted, 0.005);
    double up = percentile(sorted, 0.995) - median;
    // half the values may be the same, and then there is no distance to divide by
    return down > 0.0 && up > 0.0
        ? OptionalDouble.of(tolerance.nearest(median, down, up))
        : OptionalDouble.empty();
  }

  /** By p·(n + 1) (NIST/SEMATECH e-Handbook 7.2.6.2). */
  static double percentile(double[] sorted, double p) {
    double at = p * (sorted.length + 1);
    int below = (int) Math.floor(at);
    if (below < 1) {
      return sorted[0];
    }
    if (below >= sorted.length) {
      return sorted[sorted.length - 1];
    }
    double part = at - below;
    return sorted[below - 1] + part * (sorted[below] - sorted[below - 1]);
  }
}
