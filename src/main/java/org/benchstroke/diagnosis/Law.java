package org.benchstroke.diagnosis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;

/**
 * What an error of position follows, by least squares over the stands within the travel: a constant
 * at mid travel, a slope, the way that it came, how warm it had run, and an S over the travel. All
 * in % of travel. At 25, 50 and 75 % alone an S is no other than a slope: what the stands can't
 * tell apart from the rest is left untold, first the S, then the drift.
 *
 * @param middle at mid travel
 * @param rise from 0 to 100 %
 * @param lag coming down less going up; may be untold
 * @param drift from the coolest of the stands to the warmest; may be untold
 * @param bend ahead at 25 %, behind at 75 %; may be untold
 * @param residual standard deviation of what is left
 * @param range how warm its stands were
 */
record Law(Term middle, Term rise, Term lag, Term drift, Term bend, double residual, Range range) {
  /** What is smaller is of no use to an adjuster, % of travel. */
  static final double WORTH_SAYING = 0.3;

  private static final int MOST_TERMS = 5;
  private static final int LEAST_TERMS = 3;

  /** So many stands more than terms, or the residual says nothing. */
  private static final int SPARE = 3;

  /**
   * A term that magnifies the scatter of the stands more is not told apart from the others: 2 with
   * three points up and down, 1.6 in the routine acceptance. Our choice.
   */
  private static final double MAGNIFIED = 4.0;

  /** A larger residual comes of single stands that are somewhere else, % of travel. */
  private static final double OUTLYING = 0.5;

  /**
   * @param value its size, %
   * @param half two standard errors, %; infinite if the stands can't tell it
   */
  record Term(double value, double half) {
    private static final Term UNTOLD = new Term(0.0, Double.POSITIVE_INFINITY);

    /** Whether the stands can tell it. */
    boolean told() {
      return Double.isFinite(half);
    }

    /** Whether it is there beyond doubt and larger than what matters. */
    boolean beyond(double least) {
      return Math.abs(value) > least + half;
    }
  }

  /** From the coolest of some stands to the warmest. */
  record Range(double least, double most) {
    private static Range of(List<Stand> stands) {
      DoubleSummaryStatistics warmth =
          stands.stream().mapToDouble(Stand::warmth).summaryStatistics();
      return new Range(warmth.getMin(), warmth.getMax());
    }

    /** From −0.5 to 0.5 within it. */
    private double place(Stand s) {
      return (s.warmth() - least) / Math.max(1.0, most - least) - 0.5;
    }
  }

  /** With as many terms as can be told apart; empty where not even the first three can. */
  static Optional<Law> of(List<Stand> all, ToDoubleFunction<Stand> error) {
    List<Stand> stands = all.stream().filter(s -> s.within() && s.way() != 0).toList();
    for (int terms = MOST_TERMS; terms >= LEAST_TERMS; terms--) {
      Optional<Law> law = of(stands, error, terms);
      if (law.isPresent()) {
        return law;
      }
    }
    return Optional.empty();
  }

  /** Stands that are far from the law of the others are left out, a quarter of them at most. */
  private static Optional<Law> of(List<Stand> all, ToDoubleFunction<Stand> error, int terms) {
    List<Stand> stands = new ArrayList<>(all);
    int least = Math.max(terms + SPARE, stands.size() * 3 / 4);
    Optional<Law> law = fit(stands, error, terms);
    while (law.isPresent() && law.get().residual() > OUTLYING && stands.size() > least) {
      stands.remove(furthest(stands, error));
      law = fit(stands, error, terms);
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

  private static Optional<Law> fit(List<Stand> stands, ToDoubleFunction<Stand> error, int terms) {
    if (stands.size() < terms + SPARE) {
      return Optional.empty();
    }
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    fit.newSampleData(stands.stream().mapToDouble(error).toArray(), columns(stands, terms - 1));
    try {
      return apart(fit) ? Optional.of(law(fit, Range.of(stands))) : Optional.empty();
    } catch (SingularMatrixException e) {
      return Optional.empty(); // all at one place, or all from one side
    }
  }

  /** Whether the stands lie so that no term takes the place of another. */
  private static boolean apart(OLSMultipleLinearRegression fit) {
    double[][] squares = fit.estimateRegressionParametersVariance();
    return IntStream.range(0, squares.length).allMatch(i -> squares[i][i] < MAGNIFIED * MAGNIFIED);
  }

  private static Law law(OLSMultipleLinearRegression fit, Range range) {
    double[] values = fit.estimateRegressionParameters();
    double[] errors = fit.estimateRegressionParametersStandardErrors();
    Term[] t = new Term[MOST_TERMS];
    Arrays.setAll(t, i -> i < values.length ? new Term(values[i], 2.0 * errors[i]) : Term.UNTOLD);
    return new Law(t[0], t[1], t[2], t[3], t[4], fit.estimateRegressionStandardError(), range);
  }

  private static double[][] columns(List<Stand> stands, int count) {
    Range range = Range.of(stands);
    double[][] x = new double[stands.size()][];
    for (int i = 0; i < x.length; i++) {
      Stand s = stands.get(i);
      double[] all = {
        (s.setpointPercent() - 50.0) / 100.0,
        -s.way() / 2.0,
        range.place(s),
        Math.sin(2.0 * Math.PI * s.setpointPercent() / 100.0)
      };
      x[i] = Arrays.copyOf(all, count);
    }
    return x;
  }

  /** The same of a unit that was under way: what it was late by says nothing of where it rests. */
  Law underWay() {
    return new Law(middle, rise, Term.UNTOLD, drift, bend, residual, range);
  }

  /** What it is at a place, coming from either way alike, half warm. */
  double at(double setpointPercent) {
    return middle.value() + rise.value() * (setpointPercent - 50.0) / 100.0;
  }

  /** Likewise as warm as it was; a drift within its doubt is none. */
  double at(Stand s) {
    double drifted = drift.beyond(WORTH_SAYING) ? drift.value() * range.place(s) : 0.0;
    return at(s.setpointPercent()) + drifted;
  }
}
