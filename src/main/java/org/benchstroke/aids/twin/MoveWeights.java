package org.benchstroke.aids.twin;

import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * What the samples of one move may be off by, as a covariance: each by the noise of the feedback,
 * by what its instant is known to and a little for the load; all together by the instant at which
 * the controller looked, and by the error at which it started; those near the end by where it
 * stopped. Generalised least squares: a misfit is multiplied by the inverse of the covariance's
 * Cholesky factor (Commons Math), and then its parts are independent and of the size 1. One thread
 * at a time.
 */
final class MoveWeights {
  /** The load changes the speed of a sound motor along the way by so much: our own choice. */
  private static final double UNEVEN = 0.005;

  private static final double LATER_SECONDS = 0.005;
  private static final double FURTHER_PERCENT = 0.05;

  /** A controller looks no more often than that (common practice, no source), as a deviation, s. */
  private static final double LEAST_LOOK_SECONDS = 0.01 / Math.sqrt(12.0);

  private final Move move;
  private final int samples;
  private final RealMatrix factor;
  private final double[] deviation;

  /** The last course, and whose it is; null before the first. */
  private Course course;

  private TwinUnit gone;

  /**
   * Of one move.
   *
   * @param unit a twin near to the truth
   * @param noise standard deviation of the feedback at rest, %
   * @param start standard uncertainty of h_on, of one start, %
   */
  MoveWeights(Move move, int samples, TwinUnit unit, double noise, double start) {
    this.move = move;
    this.samples = samples;
    RealVector usual = MatrixUtils.createRealVector(followed(unit));
    RealVector later = MatrixUtils.createRealVector(followed(unit.later(LATER_SECONDS)));
    RealVector slope = later.subtract(usual).mapDivide(LATER_SECONDS);
    double speed = unit.motion().speed(move.sign());
    double stop = unit.stops().scatter();
    RealVector looked = slope.mapMultiply(Math.max(LEAST_LOOK_SECONDS, stop / speed));
    RealVector started =
        MatrixUtils.createRealVector(unit.startingAt(unit.start() + start).follow(move, samples))
            .subtract(usual);
    RealVector stopped =
        MatrixUtils.createRealVector(
                unit.course(move, FURTHER_PERCENT).seen(move, samples, unit.motion().delay()))
            .subtract(usual)
            .mapMultiply(stop / FURTHER_PERCENT);
    RealMatrix covariance =
        MatrixUtils.createRealDiagonalMatrix(own(usual, slope, speed, noise))
            .add(looked.outerProduct(looked))
            .add(started.outerProduct(started))
            .add(stopped.outerProduct(stopped));
    this.deviation = new double[samples];
    for (int i = 0; i < samples; i++) {
      deviation[i] = Math.sqrt(covariance.getEntry(i, i));
    }
    this.factor = new CholeskyDecomposition(covariance).getL();
  }

  /** As {@link TwinUnit#follow}; one with another delay than the last one goes the same course. */
  private double[] followed(TwinUnit unit) {
    TwinUnit atOnce = unit.atOnce();
    if (course == null || !atOnce.equals(gone)) {
      course = atOnce.course(move, 0.0);
      gone = atOnce;
    }
    return course.seen(move, samples, unit.motion().delay());
  }

  Move move() {
    return move;
  }

  int samples() {
    return samples;
  }

  /** The variance of each sample by itself. */
  private double[] own(RealVector usual, RealVector slope, double speed, double noise) {
    double[] own = new double[samples];
    for (int i = 0; i < samples; i++) {
      double stamp = slope.getEntry(i) * move.trace().stampHalfSeconds(i) / Math.sqrt(3.0);
      boolean moving = Math.abs(slope.getEntry(i)) > 0.5 * speed;
      double way = moving ? UNEVEN * (usual.getEntry(i) - move.before().mean()) : 0.0;
      own[i] = noise * noise + stamp * stamp + way * way;
    }
    return own;
  }

  /** Measured less modelled, %. */
  double[] left(TwinUnit unit) {
    double[] left = followed(unit);
    for (int i = 0; i < samples; i++) {
      left[i] = move.trace().percent(i) - left[i];
    }
    return left;
  }

  /** The same, each in units of what it may be off by. */
  double[] single(TwinUnit unit) {
    double[] left = left(unit);
    for (int i = 0; i < samples; i++) {
      left[i] /= deviation[i];
    }
    return left;
  }

  /** The same as independent parts of the size 1. */
  double[] apart(TwinUnit unit) {
    RealVector left = MatrixUtils.createRealVector(left(unit));
    MatrixUtils.solveLowerTriangularSystem(factor, left);
    return left.toArray();
  }
}
