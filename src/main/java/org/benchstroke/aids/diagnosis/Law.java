package org.benchstroke.aids.diagnosis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;

/**
 * What an error of position follows, by least squares over the stands within the travel: a constant
 * and a slope, the way that it came, how warm it had run, and a bend over the travel: an S, an arc
 * to one side. All in % of travel. At 25, 50 and 75 % alone an S is no other than a slope: what the
 * stands can't tell apart from the rest is left untold. An arc that is not there beyond doubt is
 * left out of the others' fit, for it would blur them.
 *
 * @param zero of its straight line, at 0 %
 * @param middle of its straight line, at mid travel
 * @param rise of its straight line, from 0 to 100 %
 * @param lag coming down less going up; may be untold
 * @param drift from the coolest of the stands to the warmest; may be untold
 * @param arc ahead in the middle of the travel, beside its line; may be untold
 * @param bend ahead at 25 %, behind at 75 %; may be untold
 * @param residual standard deviation of what is left
 * @param range how warm its stands were
 */
record Law(
    Term zero,
    Term middle,
    Term rise,
    Term lag,
    Term drift,
    Term arc,
    Term bend,
    double residual,
    Range range) {
  /** What is smaller is of no use to an adjuster, % of travel. */
  static final double WORTH_SAYING = 0.3;

  /** Columns of the fit behind the constant: which terms, in which order they are tried. */
  private static final int RISE = 0;

  private static final int LAG = 1;
  private static final int DRIFT = 2;
  private static final int ARC = 3;
  private static final int BEND = 4;

  private static final int[][] STRAIGHT = {
    {RISE, LAG, DRIFT, BEND}, {RISE, LAG, DRIFT}, {RISE, LAG}
  };

  private static final int[][] ARCHED = {
    {RISE, LAG, DRIFT, ARC, BEND}, {RISE, LAG, DRIFT, ARC}, {RISE, LAG, ARC}
  };

  /** An arc explains so much of what is left without it, or it is none. Our choice. */
  private static final double EXPLAINS = 0.8;

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
    Optional<Law> straight = first(stands, error, STRAIGHT);
    Optional<Law> arched = first(stands, error, ARCHED);
    if (straight.isEmpty() || arched.isEmpty()) {
      return straight.isPresent() ? straight : arched;
    }
    Law plain = straight.get();
    Law bowed = arched.get();
    boolean bows = bowed.arc.beyond(WORTH_SAYING) && bowed.residual < EXPLAINS * plain.residual;
    return Optional.of(bows ? bowed : plain.withArc(bowed.arc));
  }

  private static Optional<Law> first(
      List<Stand> stands, ToDoubleFunction<Stand> error, int[][] choices) {
    return Arrays.stream(choices)
        .map(terms -> of(stands, error, terms))
        .flatMap(Optional::stream)
        .findFirst();
  }

  /** Stands that are far from the law of the others are left out, a quarter of them at most. */
  private static Optional<Law> of(List<Stand> all, ToDoubleFunction<Stand> error, int[] terms) {
    List<Stand> stands = new ArrayList<>(all);
    int least = Math.max(terms.length + 1 + SPARE, stands.size() * 3 / 4);
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

  private static Optional<Law> fit(List<Stand> stands, ToDoubleFunction<Stand> error, int[] terms) {
    if (stands.size() < terms.length + 1 + SPARE) {
      return Optional.empty();
    }
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    fit.newSampleData(stands.stream().mapToDouble(error).toArray(), columns(stands, terms));
    try {
      return apart(fit) ? Optional.of(law(fit, terms, Range.of(stands))) : Optional.empty();
    } catch (SingularMatrixException e) {
      return Optional.empty(); // all at one place, or all from one side
    }
  }

  /** Whether the stands lie so that no term takes the place of another. */
  private static boolean apart(OLSMultipleLinearRegression fit) {
    double[][] squares = fit.estimateRegressionParametersVariance();
    return IntStream.range(0, squares.length).allMatch(i -> squares[i][i] < MAGNIFIED * MAGNIFIED);
  }

  private static Law law(OLSMultipleLinearRegression fit, int[] terms, Range range) {
    double[] values = fit.estimateRegressionParameters();
    double[] errors = fit.estimateRegressionParametersStandardErrors();
    Term[] t = new Term[BEND + 1];
    Arrays.fill(t, Term.UNTOLD);
    for (int i = 0; i < terms.length; i++) {
      t[terms[i]] = new Term(values[i + 1], 2.0 * errors[i + 1]);
    }
    double residual = fit.estimateRegressionStandardError();
    double[][] squares = fit.estimateRegressionParametersVariance();
    double atZero = squares[0][0] - squares[0][1] + squares[1][1] / 4.0;
    Term zero =
        new Term(values[0] - values[1] / 2.0, 2.0 * residual * Math.sqrt(Math.max(0.0, atZero)));
    return new Law(
        zero,
        new Term(values[0], 2.0 * errors[0]),
        t[RISE],
        t[LAG],
        t[DRIFT],
        t[ARC],
        t[BEND],
        residual,
        range);
  }

  private static double[][] columns(List<Stand> stands, int[] terms) {
    Range range = Range.of(stands);
    double[][] x = new double[stands.size()][];
    for (int i = 0; i < x.length; i++) {
      Stand s = stands.get(i);
      double share = s.setpointPercent() / 100.0;
      double[] all = {share - 0.5, -s.way() / 2.0, range.place(s), arc(share), wave(share)};
      x[i] = Arrays.stream(terms).mapToDouble(t -> all[t]).toArray();
    }
    return x;
  }

  private static double arc(double share) {
    return Math.sin(Math.PI * share);
  }

  private static double wave(double share) {
    return Math.sin(2.0 * Math.PI * share);
  }

  private Law withArc(Term other) {
    return new Law(zero, middle, rise, lag, drift, other, bend, residual, range);
  }

  /** The same of a unit that was under way: what it was late by says nothing of where it rests. */
  Law underWay() {
    return new Law(zero, middle, rise, Term.UNTOLD, drift, arc, bend, residual, range);
  }

  /** The larger of both bends; empty where the stands can tell neither. */
  Optional<Term> bent() {
    return Stream.of(arc, bend)
        .filter(Term::told)
        .max(Comparator.comparingDouble(t -> Math.abs(t.value())));
  }

  /** At 100 %, %. */
  double atTop() {
    return middle.value() + rise.value() / 2.0;
  }

  /**
   * What it is where that stand was, coming from either way alike and as warm as it was; what is
   * within its doubt is none.
   */
  double at(Stand s) {
    double share = s.setpointPercent() / 100.0;
    return middle.value()
        + rise.value() * (share - 0.5)
        + beyondDoubt(drift) * range.place(s)
        + beyondDoubt(arc) * arc(share)
        + beyondDoubt(bend) * wave(share);
  }

  private static double beyondDoubt(Term term) {
    return term.beyond(WORTH_SAYING) ? term.value() : 0.0;
  }
}
