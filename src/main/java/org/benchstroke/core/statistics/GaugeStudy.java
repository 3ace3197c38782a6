package org.benchstroke.core.statistics;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Repeatability and reproducibility of a gauge, as variances in the squared unit of the readings
 * (AIAG, Measurement Systems Analysis, 4th edition, from memory). A share of the study is one of
 * deviations, so shares don't add up to one. Immutable.
 *
 * @param method how it was found
 * @param table the analysis of variance that the components are from; empty for average and range
 * @param parts one for each component, the repeatability first
 */
public record GaugeStudy(Method method, List<Row> table, List<Part> parts) implements StudyAnswer {
  /** The width of a distribution that is compared with a tolerance, in its deviations. */
  private static final double WIDTH = 6.0;

  /** √2 as the manual rounds it, for the number of distinct categories. */
  private static final double ROOT_TWO = 1.41;

  /** How it was found. */
  public enum Method {
    /** Every operator measured every unit; operators and units interact. */
    CROSSED,
    /** As above; no interaction was seen, so it counts as repeatability. */
    CROSSED_POOLED,
    /** Each operator measured units of their own. */
    NESTED,
    /** Every operator measured every unit, by means and ranges. */
    AVERAGE_AND_RANGE
  }

  /** What makes readings differ. */
  public enum Effect {
    /** Repeats of the same on the same: EV, equipment variation. */
    REPEATABILITY,
    /** Those who measure, or their benches: AV, appraiser variation. */
    OPERATOR,
    /** Some measure some units otherwise than others do. */
    INTERACTION,
    /** The units themselves: PV. */
    UNIT
  }

  /**
   * A line of an analysis of variance.
   *
   * @param effect what varies
   * @param squares the sum of squares
   * @param degrees the degrees of freedom
   * @param f the ratio to the mean square that it is compared with; empty for the repeatability
   * @param p the probability of such a ratio or a larger one by chance
   */
  public record Row(
      Effect effect, double squares, int degrees, OptionalDouble f, OptionalDouble p) {
    /** The mean square. */
    public double mean() {
      return squares / degrees;
    }
  }

  /**
   * A component.
   *
   * @param effect what it is of
   * @param variance 0 or more
   * @param setToZero whether the estimate was negative: nothing of it was seen above the rest
   */
  public record Part(Effect effect, double variance, boolean setToZero) {
    static Part of(Effect effect, double estimate) {
      return new Part(effect, Math.max(0.0, estimate), estimate < 0.0);
    }
  }

  public GaugeStudy {
    table = List.copyOf(table);
    parts = List.copyOf(parts);
  }

  /** The variance of a component; 0 where the method has none. */
  public double variance(Effect effect) {
    return parts.stream().filter(p -> p.effect() == effect).mapToDouble(Part::variance).sum();
  }

  /** Its standard deviation. */
  public double deviation(Effect effect) {
    return Math.sqrt(variance(effect));
  }

  /** Of the gauge with those who use it: repeatability, operators and interaction. */
  public double gauge() {
    return Math.sqrt(
        variance(Effect.REPEATABILITY) + variance(Effect.OPERATOR) + variance(Effect.INTERACTION));
  }

  /** TV, of everything. */
  public double total() {
    return Math.sqrt(parts.stream().mapToDouble(Part::variance).sum());
  }

  /** A deviation in % of that of everything. */
  public double percentOfStudy(double deviation) {
    return 100.0 * deviation / total();
  }

  /**
   * Six deviations in % of a tolerance.
   *
   * @param tolerance the upper limit less the lower one, above 0
   */
  public double percentOfTolerance(double deviation, double tolerance) {
    if (!(tolerance > 0.0)) {
      throw new IllegalArgumentException("a tolerance is above 0, not " + tolerance);
    }
    return 100.0 * WIDTH * deviation / tolerance;
  }

  /** How many classes of units it tells apart: 1.41·PV ÷ GRR, rounded down, at least 1. */
  public int distinctCategories() {
    double ratio = ROOT_TWO * deviation(Effect.UNIT) / gauge();
    return (int) Math.max(1.0, Math.floor(ratio));
  }

  /** The line of an effect. */
  public Row row(Effect effect) {
    return table.stream().filter(r -> r.effect() == effect).findFirst().orElseThrow();
  }
}
