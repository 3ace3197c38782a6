package org.benchstroke.twin;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.SimpleBounds;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.BOBYQAOptimizer;
import org.benchstroke.analysis.Trace;

/**
 * Fits speed, lags, delay and play to recorded moves: least squares between their traces and those
 * of a {@link TwinUnit}, by BOBYQA (Powell 2009; Commons Math), which needs no derivatives. The
 * misfit of a sample counts in units of what it may be: noise, the scatter of the stops, and while
 * it moves its speed times what the instants are known to and a little for its load. The
 * uncertainties are those of a least squares fit whose residuals hang together within a move
 * (sandwich estimator, a standard result of statistics). One thread.
 */
final class MotionFit {
  private static final int OF_A_KIND = 3;
  private static final int LEAST_MOVES = 4;
  private static final int MOST_EVALUATIONS = 140;
  private static final double AFTERWARDS_SECONDS = 0.8;

  /** Half of the longest usual controller period, as a standard deviation, s. */
  private static final double PERIOD_SECONDS = 0.05 / Math.sqrt(12.0);

  /** The load changes the speed of a sound motor along the way by so much: our own choice. */
  private static final double UNEVEN = 0.005;

  private static final double DOUBTFUL = 1.0;

  /**
   * Bounds and steps in the order of {@link TwinUnit.Motion}; of the speeds, shares of the guess.
   */
  private static final double[] LOW = {0.002, 0.0, 0.01, 0.0, 0.85, 0.85};

  private static final double[] HIGH = {1.5, 0.5, 0.3, 5.0, 1.15, 1.15};
  private static final double[] SCALE = {0.05, 0.02, 0.02, 0.1, 0.02, 0.02};

  /**
   * How far a value may well be from its first guess, as a standard deviation: so wide that it
   * holds only what the moves don't tell. Long moves alone tell delay and filter together only.
   */
  private static final double[] USUAL = {0.3, 0.1, 0.1, 2.0, 0.1, 0.1};

  /** A value is told if its standard deviation falls to this share of the usual one. */
  private static final double TOLD = 0.5;

  private final Stops stops;
  private final double start;
  private final double noise;
  private final TwinUnit.Motion guess;
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

  MotionFit(List<Move> clean, Stops stops, double start, double noise, TwinUnit.Motion guess) {
    this.stops = stops;
    this.start = start;
    this.noise = noise;
    this.guess = guess;
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
    Result second =
        from(new TwinUnit.Motion(0.25, 0.08, 0.08, 0.2, guess.up() * 1.01, guess.down() * 1.01));
    return second.ratio() < first.ratio() ? second : first;
  }

  private Result from(TwinUnit.Motion begin) {
    double[] x = scaled(begin.values());
    double[] low = new double[x.length];
    double[] high = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      double by = base(i);
      low[i] = LOW[i] * by / scale(i);
      high[i] = HIGH[i] * by / scale(i);
    }
    double[][] best = {x};
    double[] least = {Double.POSITIVE_INFINITY};
    try {
      new BOBYQAOptimizer(2 * x.length + 1, 1.0, 1e-3)
          .optimize(
              new MaxEval(MOST_EVALUATIONS),
              new ObjectiveFunction(
                  at -> {
                    double cost = squares(at);
                    if (cost < least[0]) {
                      least[0] = cost;
                      best[0] = at.clone();
                    }
                    return cost;
                  }),
              GoalType.MINIMIZE,
              new InitialGuess(x),
              new SimpleBounds(low, high));
    } catch (MathIllegalStateException e) {
      // So many evaluations are enough, or its own rounding stops it: what is best so far stands.
      return result(best[0]);
    }
    return result(best[0]);
  }

  private double scale(int i) {
    return SCALE[i] * base(i);
  }

  /** What a value's bounds and steps count in. */
  private double base(int i) {
    return i < TwinUnit.Motion.UP ? 1.0 : guess.values()[i];
  }

  private double[] scaled(double[] values) {
    double[] x = values.clone();
    for (int i = 0; i < x.length; i++) {
      x[i] /= scale(i);
    }
    return x;
  }

  private TwinUnit unit(double[] x) {
    double[] values = x.clone();
    for (int i = 0; i < x.length; i++) {
      double by = base(i);
      values[i] = Math.max(LOW[i] * by, Math.min(HIGH[i] * by, values[i] * scale(i)));
    }
    return new TwinUnit(stops, start, TwinUnit.Motion.of(values));
  }

  private double squares(double[] x) {
    TwinUnit unit = unit(x);
    double sum = 0.0;
    for (Move move : moves) {
      for (double r : misfit(unit, move)) {
        sum += r * r;
      }
    }
    double[] first = scaled(guess.values());
    for (int i = 0; i < x.length; i++) {
      double far = (x[i] - first[i]) / usual(i);
      sum += far * far;
    }
    return sum;
  }

  /** The usual deviation of a value from its guess, in its steps. */
  private static double usual(int i) {
    return USUAL[i] / SCALE[i];
  }

  /** Samples from the change to a little after it should stand. */
  static int samples(Move move, double speed) {
    double end = move.at() + Math.abs(move.way()) / speed + AFTERWARDS_SECONDS;
    return Math.max(1, move.trace().indexAt(end));
  }

  /** The misfit of each sample in units of what it may be. */
  private double[] misfit(TwinUnit unit, Move move) {
    Trace trace = move.trace();
    double speed = guess.speed(move.sign());
    double[] seen = unit.follow(move, Math.min(trace.size(), samples(move, speed)));
    double still = StrictMath.hypot(noise, stops.scatter());
    for (int i = 0; i < seen.length; i++) {
      double instant = StrictMath.hypot(PERIOD_SECONDS, trace.stampHalfSeconds(i) / Math.sqrt(3.0));
      double way = UNEVEN * Math.abs(trace.percent(i) - move.before().mean());
      double may =
          moving(move, trace.percent(i))
              ? StrictMath.hypot(still, StrictMath.hypot(speed * instant, way))
              : still;
      seen[i] = (trace.percent(i) - seen[i]) / may;
    }
    return seen;
  }

  private boolean moving(Move move, double percent) {
    double from = Math.abs(percent - move.before().mean());
    double left = Math.abs(percent - move.after().mean());
    return Math.min(from, left) > 4.0 * noise;
  }

  private Result result(double[] x) {
    TwinUnit unit = unit(x);
    double sum = 0.0;
    double plain = 0.0;
    int count = 0;
    for (Move move : moves) {
      for (double r : misfit(unit, move)) {
        sum += r * r;
        count++;
      }
      double[] seen =
          unit.follow(move, Math.min(move.trace().size(), samples(move, guess.speed(move.sign()))));
      for (int i = 0; i < seen.length; i++) {
        double left = move.trace().percent(i) - seen[i];
        plain += left * left;
      }
    }
    return new Result(unit, halves(x), moves, Math.sqrt(plain / count), Math.sqrt(sum / count));
  }

  private List<Double> halves(double[] x) {
    int n = x.length;
    RealMatrix bread = MatrixUtils.createRealMatrix(n, n);
    RealMatrix meat = MatrixUtils.createRealMatrix(n, n);
    TwinUnit unit = unit(x);
    for (Move move : moves) {
      RealMatrix slopes = slopes(x, move);
      double[] left = misfit(unit, move);
      RealMatrix pull = slopes.transpose().multiply(MatrixUtils.createColumnRealMatrix(left));
      bread = bread.add(slopes.transpose().multiply(slopes));
      meat = meat.add(pull.multiply(pull.transpose()));
    }
    double few = moves.size() / Math.max(1.0, moves.size() - (double) n);
    double[] known = new double[n];
    Arrays.setAll(known, i -> 1.0 / (usual(i) * usual(i)));
    RealMatrix usual = MatrixUtils.createRealDiagonalMatrix(known);
    RealMatrix inverse = new LUDecomposition(bread.add(usual)).getSolver().getInverse();
    RealMatrix covariance = inverse.multiply(meat.scalarMultiply(few).add(usual)).multiply(inverse);
    List<Double> halves = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      double deviation = Math.sqrt(covariance.getEntry(i, i));
      boolean told = deviation <= TOLD * usual(i);
      halves.add(told ? 2.0 * scale(i) * deviation : Double.POSITIVE_INFINITY);
    }
    return halves;
  }

  private RealMatrix slopes(double[] x, Move move) {
    double step = 0.1;
    double[][] columns = new double[x.length][];
    for (int i = 0; i < x.length; i++) {
      double[] more = x.clone();
      double[] less = x.clone();
      more[i] += step;
      less[i] -= step;
      double[] above = misfit(unit(more), move);
      double[] below = misfit(unit(less), move);
      for (int k = 0; k < above.length; k++) {
        above[k] = (above[k] - below[k]) / (2.0 * step);
      }
      columns[i] = above;
    }
    return MatrixUtils.createRealMatrix(columns).transpose();
  }
}
