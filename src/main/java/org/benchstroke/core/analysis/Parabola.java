package org.benchstroke.core.analysis;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.linear.SingularMatrixException;

/**
 * y = a + b·x + c·x² by least squares, x = (t − centre) ÷ scale running from −1 to 1; c = 0 for a
 * line. Immutable.
 */
final class Parabola {
  private final double centre;
  private final double scale;
  private final double[] factors;
  private final double meanSlope;
  private final double lineRoot;
  private final RealMatrix inverse;

  private Parabola(
      double centre,
      double scale,
      double[] factors,
      double meanSlope,
      double lineRoot,
      RealMatrix inverse) {
    this.centre = centre;
    this.scale = scale;
    this.factors = factors;
    this.meanSlope = meanSlope;
    this.lineRoot = lineRoot;
    this.inverse = inverse;
  }

  /** Through sign·(position − level). */
  static Parabola fit(Trace samples, double level, double sign, boolean curved) {
    int n = samples.size();
    double first = samples.seconds(0);
    double last = samples.seconds(n - 1);
    double centre = (first + last) / 2.0;
    double scale = Math.max((last - first) / 2.0, Double.MIN_NORMAL);
    double[] powers = new double[5];
    double[] right = new double[3];
    for (int i = 0; i < n; i++) {
      double x = (samples.seconds(i) - centre) / scale;
      double y = sign * (samples.percent(i) - level);
      double square = x * x;
      double cube = square * x;
      powers[1] += x;
      powers[2] += square;
      powers[3] += cube;
      powers[4] += cube * x;
      right[0] += y;
      right[1] += x * y;
      right[2] += square * y;
    }
    powers[0] = n;
    double meanSlope = slope(n, powers[1], powers[2], right[0], right[1]);
    if (curved) {
      try {
        return solved(centre, scale, powers, right, meanSlope, 3);
      } catch (SingularMatrixException e) {
        return solved(centre, scale, powers, right, meanSlope, 2);
      }
    }
    return solved(centre, scale, powers, right, meanSlope, 2);
  }

  /** The slope of the straight line of least squares, by sums over its points. */
  static double slope(double n, double x, double xx, double y, double xy) {
    double spread = n * xx - x * x;
    return spread > 0.0 ? (n * xy - x * y) / spread : 0.0;
  }

  private static Parabola solved(
      double centre, double scale, double[] powers, double[] right, double meanSlope, int order) {
    RealMatrix normal = new Array2DRowRealMatrix(order, order);
    RealVector side = new ArrayRealVector(order);
    for (int i = 0; i < order; i++) {
      for (int j = 0; j < order; j++) {
        normal.setEntry(i, j, powers[i + j]);
      }
      side.setEntry(i, right[i]);
    }
    RealMatrix inverse = new LUDecomposition(normal).getSolver().getInverse();
    double[] factors = inverse.operate(side).toArray();
    double lineRoot = (powers[1] - right[0] / meanSlope) / powers[0];
    return new Parabola(centre, scale, factors, meanSlope, lineRoot, inverse);
  }

  double centre() {
    return centre;
  }

  double scale() {
    return scale;
  }

  /** Per unit of x. */
  double meanSlope() {
    return meanSlope;
  }

  /** Where the straight line through the same samples crosses zero; infinite if it is level. */
  double lineRoot() {
    return lineRoot;
  }

  private double curvature() {
    return factors.length > 2 ? factors[2] : 0.0;
  }

  double at(double x) {
    return factors[0] + x * (factors[1] + x * curvature());
  }

  double slopeAt(double x) {
    return factors[1] + 2.0 * curvature() * x;
  }

  /** Where it crosses zero upwards; far outside −1..1 if it doesn't. */
  double root() {
    double a = factors[0];
    double b = factors[1];
    double c = curvature();
    double discriminant = b * b - 4.0 * a * c;
    if (discriminant < 0.0) {
      return Double.MAX_VALUE;
    }
    // Of the two roots the one with the rising slope, in the form that keeps its digits.
    double root = Math.sqrt(discriminant);
    return b + root != 0.0 && b >= 0.0 ? -2.0 * a / (b + root) : (root - b) / (2.0 * c);
  }

  /** Where it is highest; empty of meaning if it isn't curved downwards. */
  double top() {
    return -factors[1] / (2.0 * curvature());
  }

  boolean hasTop() {
    return curvature() < 0.0 && Math.abs(top()) <= 1.0;
  }

  /** The variance of its value at x, as a share of that of one sample. */
  double leverage(double x) {
    double[] g = factors.length > 2 ? new double[] {1.0, x, x * x} : new double[] {1.0, x};
    double sum = 0.0;
    for (int i = 0; i < g.length; i++) {
      for (int j = 0; j < g.length; j++) {
        sum += g[i] * inverse.getEntry(i, j) * g[j];
      }
    }
    return sum;
  }
}
