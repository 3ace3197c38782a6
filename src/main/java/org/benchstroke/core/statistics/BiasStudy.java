package org.benchstroke.core.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.stat.StatUtils;
import org.apache.commons.math3.stat.regression.SimpleRegression;

/**
 * Bias and linearity of a gauge: known references, each read several times, and a straight line
 * through the biases (AIAG, Measurement Systems Analysis, 4th edition, chapter III, from memory).
 * Immutable.
 *
 * @param points the bias at each reference, in the order of the references
 * @param intercept the line's bias at a reference of 0, in the unit of the readings
 * @param slope its change per unit of the reference
 * @param deviation the standard deviation about the line, n − 2 degrees of freedom
 * @param degrees n − 2
 * @param determination R²
 * @param tOfIntercept the intercept in its standard errors
 * @param tOfSlope the slope in its own
 * @param middle the mean of the references, by readings
 * @param squares the sum of the squared distances of the references from it
 */
public record BiasStudy(
    List<Point> points,
    double intercept,
    double slope,
    double deviation,
    int degrees,
    double determination,
    double tOfIntercept,
    double tOfSlope,
    double middle,
    double squares)
    implements LinearityAnswer {

  /**
   * The bias at a reference.
   *
   * @param reference its value
   * @param count n, the readings
   * @param bias their mean less the reference
   * @param deviation their standard deviation
   * @param p the probability of such a bias or a larger one by chance, two-sided
   */
  public record Point(double reference, int count, double bias, double deviation, double p) {}

  public BiasStudy {
    points = List.copyOf(points);
  }

  /**
   * Of readings.
   *
   * @param references what was read, as long as {@code readings}; at least two different ones
   * @param readings what was shown, at least two of each reference
   * @throws IllegalArgumentException if the lengths differ or a value is no number
   */
  public static LinearityAnswer of(double[] references, double[] readings) {
    Scale.finite(references);
    Scale.finite(readings);
    if (references.length != readings.length) {
      throw new IllegalArgumentException(
          references.length + " references can't belong to " + readings.length + " readings");
    }
    Map<Double, List<Double>> biases = new TreeMap<>();
    SimpleRegression line = new SimpleRegression();
    for (int i = 0; i < readings.length; i++) {
      double bias = readings[i] - references[i];
      biases.computeIfAbsent(references[i], r -> new ArrayList<>()).add(bias);
      line.addData(references[i], bias);
    }
    int least = biases.values().stream().mapToInt(List::size).min().orElse(0);
    if (biases.size() < 2 || least < 2) {
      return NoAnswer.tooFew(Math.min(biases.size(), least), 2);
    }
    List<Point> points = biases.entrySet().stream().map(BiasStudy::point).toList();
    if (points.stream().allMatch(p -> p.deviation() == 0.0)) {
      return NoAnswer.allIdentical(readings.length);
    }
    double middle = StatUtils.mean(references);
    return new BiasStudy(
        points,
        line.getIntercept(),
        line.getSlope(),
        Math.sqrt(line.getMeanSquareError()),
        readings.length - 2,
        line.getRSquare(),
        line.getIntercept() / line.getInterceptStdErr(),
        line.getSlope() / line.getSlopeStdErr(),
        middle,
        Arrays.stream(references).map(r -> (r - middle) * (r - middle)).sum());
  }

  private static Point point(Map.Entry<Double, List<Double>> at) {
    double[] biases = at.getValue().stream().mapToDouble(Double::doubleValue).toArray();
    double mean = StatUtils.mean(biases);
    double deviation = Charts.range(biases) > 0.0 ? Math.sqrt(StatUtils.variance(biases)) : 0.0;
    double t = mean / (deviation / Math.sqrt(biases.length));
    // without scatter and without a bias it is 0 ÷ 0
    double p = Double.isNaN(t) ? 1.0 : twoSided(t, biases.length - 1);
    return new Point(at.getKey(), biases.length, mean, deviation, p);
  }

  /** The line's bias at a reference. */
  public double at(double reference) {
    return intercept + slope * reference;
  }

  /**
   * Half the width of the confidence band of the line at a reference.
   *
   * @param coverage above 0 and below 1
   */
  public double half(double reference, double coverage) {
    double t = new TDistribution(null, degrees).inverseCumulativeProbability((1 + coverage) / 2);
    double off = reference - middle;
    double count = degrees + 2.0;
    return t * deviation * Math.sqrt(1.0 / count + off * off / squares);
  }

  /** The probability of such a slope or a steeper one by chance: small means not linear. */
  public double pOfSlope() {
    return twoSided(tOfSlope, degrees);
  }

  /** The probability of such an intercept by chance. */
  public double pOfIntercept() {
    return twoSided(tOfIntercept, degrees);
  }

  private static double twoSided(double t, int degrees) {
    return 2.0 * new TDistribution(null, degrees).cumulativeProbability(-Math.abs(t));
  }
}
