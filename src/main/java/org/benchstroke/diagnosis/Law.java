package org.benchstroke.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;

/**
 * What an error of position follows, by least squares over the stands within the travel: a constant
 * at mid travel, a slope, the way that it came, an S over the travel, and the time. All in % of
 * travel.
 *
 * @param middle at mid travel
 * @param rise from 0 to 100 %
 * @param lag coming down less going up
 * @param bend ahead at 25 %, behind at 75 %
 * @param drift over the whole time that was looked at
 * @param residual standard deviation of what is left
 */
record Law(Term middle, Term rise, Term lag, Term bend, Term drift, double residual) {
  private static final int TERMS = 5;

  /** A larger residual comes of single stands that are somewhere else, % of travel. */
  private static final double OUTLYING = 0.5;

  /**
   * @param value its size, %
   * @param half two standard errors, %
   */
  record Term(double value, double half) {
    /** Whether it is there beyond doubt and larger than what matters. */
    boolean beyond(double least) {
      return Math.abs(value) > least + half;
    }
  }

  /**
   * Stands that are far from the law of the others are left out, a quarter of them at most. Empty
   * with too few stands, or where the terms can't be told apart.
   */
  static Optional<Law> of(List<Stand> all, ToDoubleFunction<Stand> error) {
    List<Stand> stands =
        new ArrayList<>(all.stream().filter(Stand::within).filter(s -> s.way() != 0).toList());
    int least = Math.max(TERMS + 3, stands.size() * 3 / 4);
    Optional<Law> law = fit(stands, error);
    while (law.isPresent() && law.get().residual() > OUTLYING && stands.size() > least) {
      stands.remove(furthest(stands, error));
      law = fit(stands, error);
    }
    return law;
  }

  /** The one furthest from the median of all errors. */
  private static int furthest(List<Stand> stands, ToDoubleFunction<Stand> error) {
    double[] sorted = stands.stream().mapToDouble(error).sorted().toArray();
    double middle = sorted[sorted.length / 2];
    int worst = 0;
    for (int i = 1; i < stands.size(); i++) {
      double far = Math.abs(error.applyAsDouble(stands.get(i)) - middle);
      worst = far > Math.abs(error.applyAsDouble(stands.get(worst)) - middle) ? i : worst;
    }
    return worst;
  }

  private static Optional<Law> fit(List<Stand> stands, ToDoubleFunction<Stand> error) {
    if (stands.size() < TERMS + 3) {
      return Optional.empty();
    }
    double begin = stands.get(0).seconds();
    double length = Math.max(1.0, stands.get(stands.size() - 1).seconds() - begin);
    double[][] x = new double[stands.size()][];
    for (int i = 0; i < x.length; i++) {
      Stand s = stands.get(i);
      x[i] =
          new double[] {
            (s.setpointPercent() - 50.0) / 100.0,
            -s.way() / 2.0,
            Math.sin(2.0 * Math.PI * s.setpointPercent() / 100.0),
            (s.seconds() - begin) / length - 0.5
          };
    }
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    try {
      fit.newSampleData(stands.stream().mapToDouble(error).toArray(), x);
      double[] b = fit.estimateRegressionParameters();
      double[] se = fit.estimateRegressionParametersStandardErrors();
      Term[] terms = new Term[b.length];
      for (int i = 0; i < b.length; i++) {
        terms[i] = new Term(b[i], 2.0 * se[i]);
      }
      double left = fit.estimateRegressionStandardError();
      return Optional.of(new Law(terms[0], terms[1], terms[2], terms[3], terms[4], left));
    } catch (SingularMatrixException e) {
      return Optional.empty(); // all at one place, or all from one side
    }
  }

  /** What it is at a place, coming from either way alike. */
  double at(double setpointPercent) {
    return middle.value() + rise.value() * (setpointPercent - 50.0) / 100.0;
  }
}
