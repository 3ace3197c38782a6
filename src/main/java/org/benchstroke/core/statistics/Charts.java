package org.benchstroke.core.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.IntFunction;
import org.apache.commons.math3.stat.StatUtils;
import org.benchstroke.core.statistics.ControlChart.Kind;
import org.benchstroke.core.statistics.ControlChart.Point;

/** Control charts of values in the order of time. Stateless, safe for any thread. */
public final class Charts {
  private static final double THREE_SIGMA = 3.0;

  private Charts() {}

  /**
   * Of individual values: the centre is the mean of the baseline, σ its mean moving range ÷ d2
   * (NIST/SEMATECH e-Handbook 6.3.2.2). A moving range counts only where both its values are in the
   * baseline.
   *
   * @throws IllegalArgumentException if a value is no number
   */
  public static ChartAnswer individuals(double[] values, Baseline baseline, Set<ChartRule> rules) {
    return Scale.byMovingRange(values, baseline, 1)
        .map(
            scale -> {
              double reach = THREE_SIGMA * scale.sigma();
              boolean[] in = baseline.flags(values.length);
              List<Point> points =
                  points(
                      values.length,
                      i ->
                          new Point(
                              i, values[i], scale.centre() - reach, scale.centre() + reach, in[i]));
              return chart(Kind.INDIVIDUALS, scale.centre(), scale.sigma(), points, rules);
            });
  }

  /**
   * Of the moving ranges of individual values (same clause). Its first point is that of the second
   * value. Neighbouring ranges share a value, so no rule of runs applies.
   *
   * @throws IllegalArgumentException if a value is no number
   */
  public static ChartAnswer movingRange(double[] values, Baseline baseline) {
    return Scale.byMovingRange(values, baseline, 2)
        .map(
            scale -> {
              double mean = scale.sigma() * ChartConstants.d2(2);
              boolean[] in = baseline.flags(values.length);
              List<Point> points = new ArrayList<>();
              for (int i = 1; i < values.length; i++) {
                points.add(
                    new Point(
                        i,
                        Math.abs(values[i] - values[i - 1]),
                        ChartConstants.lowerRange(2) * mean,
                        ChartConstants.upperRange(2) * mean,
                        in[i] && in[i - 1]));
              }
              double sigma = scale.sigma() * ChartConstants.d3(2);
              return chart(Kind.MOVING_RANGE, mean, sigma, points, ChartRule.LIMIT_ONLY);
            });
  }

  /**
   * Of the means of subgroups: limits at A2 mean ranges (NIST/SEMATECH e-Handbook 6.3.2.1).
   *
   * @param groups of equal size, 2 to 10 values each
   * @param baseline of subgroups; what is {@link Baseline.Known} is that of a single value
   * @throws IllegalArgumentException if the sizes differ or a value is no number
   */
  public static ChartAnswer means(double[][] groups, Baseline baseline, Set<ChartRule> rules) {
    return Scale.bySubgroups(groups, baseline)
        .map(
            scale -> {
              double sigma = scale.sigma() / Math.sqrt(groups[0].length);
              double reach = THREE_SIGMA * sigma;
              boolean[] in = baseline.flags(groups.length);
              List<Point> points =
                  points(
                      groups.length,
                      i ->
                          new Point(
                              i,
                              StatUtils.mean(groups[i]),
                              scale.centre() - reach,
                              scale.centre() + reach,
                              in[i]));
              return chart(Kind.MEANS, scale.centre(), sigma, points, rules);
            });
  }

  /** Of the ranges of subgroups: limits at D3 and D4 mean ranges (same clause and conditions). */
  public static ChartAnswer ranges(double[][] groups, Baseline baseline) {
    return Scale.bySubgroups(groups, baseline)
        .map(
            scale -> {
              int n = groups[0].length;
              double mean = scale.sigma() * ChartConstants.d2(n);
              boolean[] in = baseline.flags(groups.length);
              List<Point> points =
                  points(
                      groups.length,
                      i ->
                          new Point(
                              i,
                              range(groups[i]),
                              ChartConstants.lowerRange(n) * mean,
                              ChartConstants.upperRange(n) * mean,
                              in[i]));
              double sigma = scale.sigma() * ChartConstants.d3(n);
              return chart(Kind.RANGES, mean, sigma, points, ChartRule.LIMIT_ONLY);
            });
  }

  /**
   * Exponentially weighted moving averages z = λ·x + (1 − λ)·z before, beginning at the centre
   * (NIST/SEMATECH e-Handbook 6.3.2.4); σ is the standard deviation of the baseline. Neighbouring
   * averages are correlated, so no rule of runs applies.
   *
   * @throws IllegalArgumentException if a value is no number
   */
  public static ChartAnswer ewma(double[] values, Baseline baseline, Weighting weighting) {
    return Scale.byDeviation(values, baseline)
        .map(
            scale -> {
              boolean[] in = baseline.flags(values.length);
              List<Point> points = new ArrayList<>();
              double z = scale.centre();
              for (int i = 0; i < values.length; i++) {
                z = weighting.lambda() * values[i] + (1.0 - weighting.lambda()) * z;
                double reach = weighting.reach(i + 1) * scale.sigma();
                points.add(new Point(i, z, scale.centre() - reach, scale.centre() + reach, in[i]));
              }
              double sigma = weighting.steady() * scale.sigma();
              return chart(Kind.EWMA, scale.centre(), sigma, points, ChartRule.LIMIT_ONLY);
            });
  }

  private static List<Point> points(int count, IntFunction<Point> point) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      points.add(point.apply(i));
    }
    return points;
  }

  private static ControlChart chart(
      Kind kind, double centre, double sigma, List<Point> points, Set<ChartRule> rules) {
    return new ControlChart(
        kind, centre, sigma, points, ChartRule.signals(rules, points, centre, sigma));
  }

  static double range(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length - 1] - sorted[0];
  }
}
