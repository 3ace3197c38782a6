package org.benchstroke.aids.twin;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.SingularMatrixException;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.PointValuePair;
import org.apache.commons.math3.optim.SimpleValueChecker;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;

/**
 * Where stops lie that are spread evenly over one look of the controller: sp − y = d·(p + w·u) + o₀
 * + o₁·s + σ·n with u even within ±½ and n normal. The ends of such a band tell its middle better
 * than the mean of all stops in it does: to some w/N instead of w/√(12·N). Largest posterior
 * density (Nelder and Mead's simplex, Commons Math), flat priors but for σ, which is about the
 * noise of the feedback; its curvature gives the uncertainty. The normal distribution is taken as
 * the logistic function of 1.702·z, which differs from it by less than 0.01 (Haley 1952, from
 * memory). Numbers without a source are our choice, by counting. Immutable.
 *
 * @param lead p, the middle, % of travel
 * @param standard its standard uncertainty, %
 * @param atMiddle o₀, %
 * @param slope o₁, %
 */
record EvenStops(double lead, double standard, double atMiddle, double slope) {
  /** With fewer the ends are hardly seen, and the curvature tells too little. */
  private static final int LEAST_RESTS = 60;

  private static final double LOGISTIC = 1.702;

  /** σ as a multiple of the noise at rest: the filter takes some away; ± half of it. */
  private static final double OF_NOISE = 0.7;

  private static final double OF_NOISE_WIDTH = 0.5;

  /** One simplex may end on a slope; a fresh one goes on from there. */
  private static final int SIMPLEXES = 3;

  private static final int MOST_EVALUATIONS = 2_000;

  private static final int LEAD = 0;
  private static final int MIDDLE = 1;
  private static final int WIDTH = 2;
  private static final int SMEAR = 3;
  private static final int SLOPE = 4;

  /**
   * Empty with too few rests.
   *
   * @param mean o₀, p and, if it is to be found, o₁ of the mean of all: where it begins
   * @param scatter standard deviation of one rest, %
   * @param noise standard deviation of the feedback at rest, above 0, %
   */
  static Optional<EvenStops> of(
      List<Stops.Rest> rests, double[] mean, double scatter, double noise) {
    if (rests.size() < LEAST_RESTS || scatter <= 0.0) {
      return Optional.empty();
    }
    double width = Math.max(scatter * Math.sqrt(12.0), noise);
    double[] x = begin(mean, width, OF_NOISE * noise);
    try {
      for (int i = 0; i < SIMPLEXES; i++) {
        x = nearer(rests, noise, x, width);
      }
      double[][] curved = curvature(rests, noise, x);
      double variance =
          new LUDecomposition(MatrixUtils.createRealMatrix(curved))
              .getSolver()
              .getInverse()
              .getEntry(LEAD, LEAD);
      double slope = x.length > SLOPE ? x[SLOPE] : 0.0;
      return variance > 0.0
          ? Optional.of(new EvenStops(x[LEAD], Math.sqrt(variance), x[MIDDLE], slope))
          : Optional.empty();
    } catch (MathIllegalStateException | SingularMatrixException e) {
      return Optional.empty();
    }
  }

  private static double[] begin(double[] mean, double width, double smear) {
    double[] x = new double[mean.length + 2];
    x[LEAD] = mean[1];
    x[MIDDLE] = mean[0];
    x[WIDTH] = StrictMath.log(width);
    x[SMEAR] = StrictMath.log(smear);
    if (mean.length > 2) {
      x[SLOPE] = mean[2];
    }
    return x;
  }

  private static double[] nearer(List<Stops.Rest> rests, double noise, double[] x, double width) {
    double tenth = 0.1 * width;
    double[] steps = {tenth, tenth, 0.1, 0.3, tenth};
    PointValuePair best =
        new SimplexOptimizer(new SimpleValueChecker(-1.0, 1e-5))
            .optimize(
                new MaxEval(MOST_EVALUATIONS),
                new ObjectiveFunction(at -> cost(rests, noise, at)),
                GoalType.MINIMIZE,
                new InitialGuess(x),
                new NelderMeadSimplex(Arrays.copyOf(steps, x.length)));
    return best.getPoint();
  }

  /** Second differences, as wide as the density is: at the ends of the band it is no parabola. */
  private static double[][] curvature(List<Stops.Rest> rests, double noise, double[] x) {
    double width = StrictMath.exp(x[WIDTH]);
    double smear = StrictMath.exp(x[SMEAR]);
    double ends = 0.5 * Math.sqrt(smear * width / rests.size());
    double place = Math.max(width / rests.size(), ends);
    double[] h = {place, place, 1.5 * place / width, 0.2, 1.5 * place};
    double[][] curved = new double[x.length][x.length];
    for (int i = 0; i < x.length; i++) {
      for (int j = 0; j <= i; j++) {
        double same = moved(rests, noise, x, i, h[i], j, h[j]);
        double other = moved(rests, noise, x, i, h[i], j, -h[j]);
        curved[i][j] = (same - other) / (4.0 * h[i] * h[j]);
        curved[j][i] = curved[i][j];
      }
    }
    return curved;
  }

  /** The sum of the costs with both moved so, and both the other way. */
  private static double moved(
      List<Stops.Rest> rests, double noise, double[] x, int i, double by, int j, double byToo) {
    double[] one = x.clone();
    double[] other = x.clone();
    one[i] += by;
    one[j] += byToo;
    other[i] -= by;
    other[j] -= byToo;
    return cost(rests, noise, one) + cost(rests, noise, other);
  }

  /** −log of the posterior density. */
  private static double cost(List<Stops.Rest> rests, double noise, double[] x) {
    double half = 0.5 * StrictMath.exp(x[WIDTH]);
    double smear = StrictMath.exp(x[SMEAR]) / LOGISTIC;
    double slope = x.length > SLOPE ? x[SLOPE] : 0.0;
    double prior = (x[SMEAR] - StrictMath.log(OF_NOISE * noise)) / OF_NOISE_WIDTH;
    double even = x[WIDTH] - StrictMath.log1p(-StrictMath.exp(-2.0 * half / smear));
    double sum = 0.5 * prior * prior + rests.size() * even;
    for (Stops.Rest r : rests) {
      double off = Math.abs(r.sign() * (r.error() - x[MIDDLE] - slope * r.share()) - x[LEAD]);
      sum += softly((off - half) / smear) + softly(-(off + half) / smear);
    }
    return sum;
  }

  /** log(1 + eᵛ). */
  private static double softly(double v) {
    if (v > 36.0) {
      return v;
    }
    return v < -36.0 ? 0.0 : StrictMath.log1p(StrictMath.exp(v));
  }
}
