package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import org.apache.commons.math3.analysis.MultivariateVectorFunction;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.util.MathArrays;

/**
 * Fits speed, lags, delay and play to recorded moves: generalised least squares between their
 * traces and those of a {@link TwinUnit}, by Levenberg and Marquardt's method (Commons Math). What
 * the samples may be off by is taken at the first guess, and again where that leads. The
 * uncertainty is that of the same least squares, larger where the misfit is. For one thread, which
 * shares the work with other cores: whatever they are, the same comes out.
 */
final class MotionFit {
  private static final int OF_A_KIND = 4;
  private static final int LEAST_MOVES = 4;
  private static final int MOST_EVALUATIONS = 40;
  private static final double AFTERWARDS_SECONDS = 0.8;

  /** Good enough: the sum of squares, and the values in their steps. */
  private static final double CLOSE = 1e-3;

  /** How far from a value its slopes are taken, in its steps. */
  private static final double STEP = 0.2;

  private static final double DOUBTFUL = 1.0;

  /** No unit is quite the model: our own choice, by counting how often U covers. */
  private static final double COVERAGE_FACTOR = 1.8 * 1.96;

  /** A value is told if its standard deviation falls to this share of the usual one. */
  private static final double TOLD = 0.5;

  private final Stops stops;
  private final double start;
  private final double startDeviation;
  private final double noise;
  private final TwinUnit.Motion guess;
  private final MotionScale scale;
  private final List<Move> moves;

  /**
   * The result.
   *
   * @param unit the twin
   * @param half U of each of its motion's values, in their order; infinite where the moves don't
   *     tell
   * @param moves those that it was fitted to
   * @param rms the root of the mean square of the misfit, %
   * @param ratio the same in units of what it may be: about 1, or less, for a unit like the model
   */
  record Result(TwinUnit unit, List<Double> half, List<Move> moves, double rms, double ratio) {}

  /**
   * Of these moves.
   *
   * @param start h_on and its U, %
   * @param noise standard deviation of the feedback at rest, %
   */
  MotionFit(List<Move> clean, Stops stops, FittedValue start, double noise, TwinUnit.Motion guess) {
    this.stops = stops;
    this.start = start.value();
    this.startDeviation = StrictMath.hypot(start.half() / 1.96, noise);
    this.noise = noise;
    this.guess = guess;
    this.scale = new MotionScale(guess);
    this.moves = chosen(clean);
  }

  boolean possible() {
    return moves.size() >= LEAST_MOVES
        && moves.stream().anyMatch(m -> m.sign() > 0)
        && moves.stream().anyMatch(m -> m.sign() < 0);
  }

  /** Whether there are moves that turn round and moves that don't: only both tell play. */
  boolean tellsPlay() {
    return moves.stream().anyMatch(Move::reverses)
        && moves.stream().anyMatch(m -> m.lastSign() == m.sign());
  }

  /** Some of each kind, the shortest first: they cost least and tell the same. */
  private static List<Move> chosen(List<Move> clean) {
    List<Move> chosen = new ArrayList<>();
    for (int kind = 0; kind < 4; kind++) {
      int sign = kind < 2 ? 1 : -1;
      boolean back = kind % 2 == 0;
      clean.stream()
          .filter(m -> m.sign() == sign && m.lastSign() == (back ? -sign : sign))
          .sorted(Comparator.comparingDouble(m -> Math.abs(Math.abs(m.way()) - 6.0)))
          .limit(OF_A_KIND)
          .forEach(chosen::add);
    }
    return chosen;
  }

  /** From a second place, too, if the first leads nowhere. */
  Result fit() {
    Result first = from(guess);
    if (first.ratio() <= DOUBTFUL) {
      return first;
    }
    double up = guess.up() * 1.01;
    double down = guess.down() * 1.01;
    Result second = from(new TwinUnit.Motion(0.25, 0.08, 0.08, 0.08, 0.05, 0.2, up, down));
    return second.ratio() < first.ratio() ? second : first;
  }

  private Result from(TwinUnit.Motion begin) {
    double[] x = scale.steps(begin);
    List<MoveWeights> first = weights(unit(x));
    x = best(x, first);
    List<MoveWeights> second = weights(unit(x));
    return result(best(x, second), second);
  }

  private List<MoveWeights> weights(TwinUnit unit) {
    return moves.stream()
        .map(
            m -> new MoveWeights(m, samples(m, guess.speed(m.sign())), unit, noise, startDeviation))
        .toList();
  }

  private double[] best(double[] from, List<MoveWeights> weights) {
    double[][] best = {from};
    double[] least = {Double.POSITIVE_INFINITY};
    MultivariateVectorFunction misfit =
        x -> {
          double[] left = misfit(x, weights);
          double squares = MathArrays.safeNorm(left);
          if (squares < least[0]) {
            least[0] = squares;
            best[0] = x;
          }
          return left;
        };
    try {
      new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(CLOSE)
          .withParameterRelativeTolerance(CLOSE)
          .optimize(
              new LeastSquaresBuilder()
                  .start(from)
                  .model(misfit, x -> slopes(x, weights).getData())
                  .lazyEvaluation(true)
                  .target(new double[misfit(from, weights).length])
                  .parameterValidator(scale::within)
                  .maxEvaluations(MOST_EVALUATIONS)
                  .maxIterations(MOST_EVALUATIONS)
                  .build());
    } catch (MathIllegalStateException e) {
      // So many evaluations are enough, or its own rounding stops it: what is best so far stands.
      return best[0];
    }
    return best[0];
  }

  private TwinUnit unit(double[] steps) {
    return new TwinUnit(stops, start, scale.motion(steps));
  }

  /** Of all samples of all moves, and how far each value is from its guess. */
  private double[] misfit(double[] x, List<MoveWeights> weights) {
    TwinUnit unit = unit(x);
    return joined(weights, w -> w.apart(unit), scale.fromGuess(x));
  }

  /** Samples from the change to a little after it should stand. */
  static int samples(Move move, double speed) {
    double end = move.at() + Math.abs(move.way()) / speed + AFTERWARDS_SECONDS;
    return Math.max(1, Math.min(move.trace().size(), move.trace().indexAt(end)));
  }

  private Result result(double[] x, List<MoveWeights> weights) {
    TwinUnit unit = unit(x);
    double rms = rootMeanSquare(weights, w -> w.left(unit));
    return new Result(
        unit, halves(x, weights), moves, rms, rootMeanSquare(weights, w -> w.single(unit)));
  }

  private static double rootMeanSquare(
      List<MoveWeights> weights, Function<MoveWeights, double[]> of) {
    return Math.sqrt(
        weights.stream()
            .flatMapToDouble(w -> Arrays.stream(of.apply(w)))
            .map(r -> r * r)
            .average()
            .orElseThrow());
  }

  private List<Double> halves(double[] x, List<MoveWeights> weights) {
    double[] left = misfit(x, weights);
    double excess = Arrays.stream(left).map(r -> r * r).sum() / (left.length - x.length);
    double larger = COVERAGE_FACTOR * Math.sqrt(Math.max(1.0, excess));
    RealMatrix slopes = slopes(x, weights);
    RealMatrix covariance =
        new LUDecomposition(slopes.transpose().multiply(slopes)).getSolver().getInverse();
    List<Double> halves = new ArrayList<>();
    for (int i = 0; i < x.length; i++) {
      double deviation = Math.sqrt(covariance.getEntry(i, i));
      boolean told = deviation <= TOLD * scale.usual(i);
      halves.add(told ? larger * scale.step(i) * deviation : Double.POSITIVE_INFINITY);
    }
    return halves;
  }

  private RealMatrix slopes(double[] x, List<MoveWeights> weights) {
    double[][] columns = new double[x.length][];
    // The delay first: with another one each move goes the course that it just went with x.
    columns[TwinUnit.Motion.DELAY] = slope(x, TwinUnit.Motion.DELAY, weights);
    for (int i = 0; i < x.length; i++) {
      if (i != TwinUnit.Motion.DELAY) {
        columns[i] = slope(x, i, weights);
      }
    }
    return MatrixUtils.createRealMatrix(columns).transpose();
  }

  /** How the misfit changes with one of the values, as a difference. */
  private double[] slope(double[] x, int i, List<MoveWeights> weights) {
    double[] more = scale.beside(x, i, STEP);
    double[] less = scale.beside(x, i, -STEP);
    double step = more[i] - less[i];
    TwinUnit above = unit(more);
    TwinUnit below = unit(less);
    return joined(
        weights,
        w -> slope(i, w, above, below, step),
        difference(scale.fromGuess(more), scale.fromGuess(less), step));
  }

  /** What the moves give, in their order, and more: each move is a work of its own for a core. */
  private static double[] joined(
      List<MoveWeights> weights, Function<MoveWeights, double[]> of, double[] more) {
    List<double[]> parts = new ArrayList<>(weights.parallelStream().map(of).toList());
    parts.add(more);
    return parts.stream().flatMapToDouble(Arrays::stream).toArray();
  }

  private static double[] slope(
      int i, MoveWeights move, TwinUnit above, TwinUnit below, double step) {
    return TwinUnit.Motion.matters(i, move.move())
        ? difference(move.apart(above), move.apart(below), step)
        : new double[move.samples()];
  }

  private static double[] difference(double[] above, double[] below, double step) {
    double[] slope = new double[above.length];
    for (int k = 0; k < slope.length; k++) {
      slope[k] = (above[k] - below[k]) / step;
    }
    return slope;
  }
}
