package org.benchstroke.core.analysis;

import org.apache.commons.math3.stat.regression.SimpleRegression;

/**
 * A straight line y = a + b·x by least squares, with the standard uncertainties of its coefficients
 * (JCGM 100:2008 H.3.2). Immutable.
 *
 * @param intercept a
 * @param slope b
 * @param interceptStandard s(a); 0 where the line was forced through the origin
 * @param slopeStandard s(b)
 * @param correlation r(a, b), −1..1; 0 where the line was forced through the origin
 * @param residualDeviation s, the standard deviation of the residuals
 * @param degreesOfFreedom n − 2, or n − 1 through the origin
 */
public record StraightLine(
    double intercept,
    double slope,
    double interceptStandard,
    double slopeStandard,
    double correlation,
    double residualDeviation,
    int degreesOfFreedom) {

  /**
   * Through points that scatter.
   *
   * @throws IllegalArgumentException with fewer than three points, or all at one x
   */
  public static StraightLine fit(double[] x, double[] y) {
    require(x, y, 3);
    SimpleRegression regression = regression(x, y, true);
    double squares = 0.0;
    double sum = 0.0;
    for (double value : x) {
      squares += value * value;
      sum += value;
    }
    // JCGM 100:2008 H.3.2, equation H.13e.
    double correlation = -sum / Math.sqrt(x.length * squares);
    return new StraightLine(
        regression.getIntercept(),
        regression.getSlope(),
        regression.getInterceptStdErr(),
        regression.getSlopeStdErr(),
        correlation,
        Math.sqrt(regression.getMeanSquareError()),
        x.length - 2);
  }

  /** As {@link #fit}, forced through the origin: y = b·x. */
  public static StraightLine throughOrigin(double[] x, double[] y) {
    require(x, y, 2);
    SimpleRegression regression = regression(x, y, false);
    double residual = Math.sqrt(regression.getMeanSquareError());
    return new StraightLine(
        0.0, regression.getSlope(), 0.0, regression.getSlopeStdErr(), 0.0, residual, x.length - 1);
  }

  /** The line's value at x. */
  public double at(double x) {
    return intercept + slope * x;
  }

  /** The standard uncertainty of the line's value at x (JCGM 100:2008 H.3.3, equation H.15). */
  public double standardAt(double x) {
    double scaled = x * slopeStandard;
    return Math.sqrt(
        interceptStandard * interceptStandard
            + scaled * scaled
            + 2.0 * x * interceptStandard * slopeStandard * correlation);
  }

  private static SimpleRegression regression(double[] x, double[] y, boolean withIntercept) {
    SimpleRegression regression = new SimpleRegression(withIntercept);
    for (int i = 0; i < x.length; i++) {
      regression.addData(x[i], y[i]);
    }
    if (Double.isNaN(regression.getSlope())) {
      throw new IllegalArgumentException("a line needs points at two different places");
    }
    return regression;
  }

  private static void require(double[] x, double[] y, int least) {
    if (x.length != y.length || x.length < least) {
      throw new IllegalArgumentException(
          "a line needs " + least + " pairs, not " + x.length + " and " + y.length + " values");
    }
  }
}
