package org.benchstroke.core.analysis;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.util.Pair;

/**
 * A curve y = f(p, x) by least squares (Levenberg–Marquardt of Commons Math) with derivatives by
 * central differences. Immutable.
 */
final class CurveFit {
  private static final double PROBE = 1.0e-6;
  private static final double LEAST_PROBE = 1.0e-12;
  private static final double SINGULAR = 1.0e-14;
  private static final double TOLERANCE = 1.0e-12;
  private static final int MOST_STEPS = 300;

  private final double[] parameters;
  private final double[] standards;
  private final double residual;
  private final double correlation;
  private final int degreesOfFreedom;

  private CurveFit(
      double[] parameters, double[] standards, double residual, double correlation, int degrees) {
    this.parameters = parameters;
    this.standards = standards;
    this.residual = residual;
    this.correlation = correlation;
    this.degreesOfFreedom = degrees;
  }

  /** A curve. */
  interface Curve {
    double at(double[] parameters, double x);
  }

  /** A fit; empty if it finds none from this start. */
  static Optional<CurveFit> of(
      Curve curve, UnaryOperator<double[]> bounds, double[] start, double[] x, double[] y) {
    try {
      Optimum optimum =
          new LevenbergMarquardtOptimizer()
              .withCostRelativeTolerance(TOLERANCE)
              .withParameterRelativeTolerance(TOLERANCE)
              .optimize(
                  new LeastSquaresBuilder()
                      .start(start)
                      .model(at -> valueAndJacobian(curve, at.toArray(), x))
                      .target(y)
                      .parameterValidator(
                          at -> new ArrayRealVector(bounds.apply(at.toArray()), false))
                      .maxEvaluations(MOST_STEPS)
                      .maxIterations(MOST_STEPS)
                      .build());
      return Optional.of(fit(optimum, x.length));
    } catch (MathIllegalStateException | SingularMatrixException e) {
      return Optional.empty();
    }
  }

  private static CurveFit fit(Optimum optimum, int points) {
    double[] at = optimum.getPoint().toArray();
    int degrees = points - at.length;
    double norm = optimum.getResiduals().getNorm();
    double residual = Math.sqrt(norm * norm / degrees);
    double[] standards = new double[at.length];
    try {
      // √diag((JᵀJ)⁻¹).
      double[] sigma = optimum.getSigma(SINGULAR).toArray();
      for (int i = 0; i < sigma.length; i++) {
        standards[i] = residual * sigma[i];
      }
    } catch (SingularMatrixException e) {
      Arrays.fill(standards, Double.POSITIVE_INFINITY);
    }
    return new CurveFit(at, standards, residual, correlation(optimum.getResiduals()), degrees);
  }

  /** Of each residual with the next one. */
  private static double correlation(RealVector residuals) {
    double products = 0.0;
    double squares = 0.0;
    for (int i = 0; i < residuals.getDimension(); i++) {
      double r = residuals.getEntry(i);
      squares += r * r;
      products += i == 0 ? 0.0 : r * residuals.getEntry(i - 1);
    }
    return squares > 0.0 ? products / squares : 0.0;
  }

  private static Pair<RealVector, RealMatrix> valueAndJacobian(
      Curve curve, double[] p, double[] x) {
    double[][] jacobian = new double[x.length][p.length];
    for (int k = 0; k < p.length; k++) {
      double probe = Math.max(LEAST_PROBE, PROBE * Math.abs(p[k]));
      double[] higher = p.clone();
      double[] lower = p.clone();
      higher[k] += probe;
      lower[k] -= probe;
      double[] above = values(curve, higher, x);
      double[] below = values(curve, lower, x);
      for (int i = 0; i < x.length; i++) {
        jacobian[i][k] = (above[i] - below[i]) / (higher[k] - lower[k]);
      }
    }
    return new Pair<>(
        new ArrayRealVector(values(curve, p, x), false), new Array2DRowRealMatrix(jacobian, false));
  }

  private static double[] values(Curve curve, double[] p, double[] x) {
    double[] values = new double[x.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = curve.at(p, x[i]);
    }
    return values;
  }

  double parameter(int index) {
    return parameters[index];
  }

  int size() {
    return parameters.length;
  }

  /** s·√((JᵀJ)⁻¹); infinite where the data say nothing of the parameter. */
  double standard(int index) {
    return standards[index];
  }

  /** s: the root of the sum of squares over the degrees of freedom. */
  double residual() {
    return residual;
  }

  /** Of neighbouring residuals, −1..1; near 0 if they are independent, as the standards assume. */
  double correlation() {
    return correlation;
  }

  int degreesOfFreedom() {
    return degreesOfFreedom;
  }
}
