package org.benchstroke.aids.twin;

import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealVector;

/**
 * The values of a {@link TwinUnit.Motion} as numbers of about the same size, within bounds. All in
 * its order and units: time constants and delays in s, play in % of travel; of the speeds, shares
 * of the first guess. The numbers are our own choice, around what is usual. Immutable.
 */
final class MotionScale {
  private static final double[] LOW = {0.002, 0.0, 0.005, 0.01, 0.006, 0.0, 0.85, 0.85};
  private static final double[] HIGH = {1.5, 0.5, 0.3, 0.5, 0.5, 5.0, 1.25, 1.25};
  private static final double[] STEP = {0.05, 0.02, 0.02, 0.02, 0.02, 0.1, 0.02, 0.02};

  /**
   * How far a value may well be from its first guess, as a standard deviation: so wide that it
   * holds only what the moves don't tell. Long moves alone tell delay and filter together only.
   */
  private static final double[] USUAL = {0.3, 0.1, 0.1, 0.05, 0.05, 2.0, 0.1, 0.1};

  private final TwinUnit.Motion guess;

  MotionScale(TwinUnit.Motion guess) {
    this.guess = guess;
  }

  /** As steps. */
  double[] steps(TwinUnit.Motion motion) {
    double[] x = motion.values();
    for (int i = 0; i < x.length; i++) {
      x[i] /= step(i);
    }
    return x;
  }

  /** Of so many steps, within the bounds. */
  TwinUnit.Motion motion(double[] steps) {
    double[] values = within(steps);
    for (int i = 0; i < values.length; i++) {
      values[i] *= step(i);
    }
    return TwinUnit.Motion.of(values);
  }

  RealVector within(RealVector steps) {
    return MatrixUtils.createRealVector(within(steps.toArray()));
  }

  private double[] within(double[] steps) {
    double[] within = steps.clone();
    for (int i = 0; i < within.length; i++) {
      within[i] = Math.max(LOW[i] / STEP[i], Math.min(HIGH[i] / STEP[i], within[i]));
    }
    return within;
  }

  /** These steps with one of them changed, within the bounds. */
  double[] beside(double[] steps, int i, double by) {
    double[] beside = steps.clone();
    beside[i] += by;
    return within(beside);
  }

  /** How far each value is from its guess, in its usual deviation. */
  double[] fromGuess(double[] steps) {
    double[] far = steps(guess);
    for (int i = 0; i < far.length; i++) {
      far[i] = (steps[i] - far[i]) / usual(i);
    }
    return far;
  }

  /** The usual deviation of a value from its guess, in steps. */
  double usual(int i) {
    return USUAL[i] / STEP[i];
  }

  /** The size of a step in the value's own unit. */
  double step(int i) {
    return i < TwinUnit.Motion.UP ? STEP[i] : STEP[i] * guess.values()[i];
  }
}
