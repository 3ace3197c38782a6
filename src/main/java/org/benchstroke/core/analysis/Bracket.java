package org.benchstroke.core.analysis;

/**
 * A level crossed between two samples, with the samples next to them. If the speed only rises or
 * only falls over the three intervals, the position lies between the straight line that joins the
 * two samples and the prolonged lines of the neighbouring intervals: the crossing is sought between
 * those two bounds. It is at the first bound for constant speed, near it for uniform acceleration,
 * at the second one for a corner. Immutable.
 */
final class Bracket {
  /**
   * Where between the bounds the crossing is put, and the half-width around it: uniform
   * acceleration has it at 0.25, a corner at 1.
   */
  private static final double SHARE = 0.6;

  private static final double HALF_SHARE = 0.45;

  /** Where a corner is expected; found by simulation of the three shapes of a response. */
  private static final double CORNER_SHARE = 0.8;

  private static final double CORNER_HALF_SHARE = 0.9;

  /** Bounds closer than this many deviations of their own noise are one. */
  private static final double DISTINCT = 2.0;

  /** Neighbouring speeds below this share of the speed between: all happened in between. */
  private static final double FLAT = 0.3;

  private static final double PROBE = 1.0e-4;

  private final double[] seconds;
  private final double[] beyond;
  private final double deviation;
  private final boolean corner;

  /** The crossing from the first of the two samples, and its half-width, s. */
  private record Place(double offset, double half) {}

  private Bracket(double[] seconds, double[] beyond, double deviation, boolean corner) {
    this.seconds = seconds;
    this.beyond = beyond;
    this.deviation = deviation;
    this.corner = corner;
  }

  /**
   * Around the interval that begins with a sample.
   *
   * @param deviation what one reading is uncertain by, to tell the bounds from their noise
   * @param corner whether the motion is expected to begin or end there abruptly
   */
  static Bracket around(
      Trace trace, int before, double level, double sign, double deviation, boolean corner) {
    double[] seconds = new double[4];
    double[] beyond = new double[4];
    for (int i = 0; i < 4; i++) {
      int index = before - 1 + i;
      boolean there = index >= 0 && index < trace.size();
      seconds[i] = there ? trace.seconds(index) : Double.NaN;
      beyond[i] = there ? sign * (trace.percent(index) - level) : Double.NaN;
    }
    return new Bracket(seconds, beyond, deviation, corner);
  }

  double interval() {
    return seconds[2] - seconds[1];
  }

  double offset() {
    return place(beyond).offset();
  }

  double half() {
    return place(beyond).half();
  }

  /** The crossing's change per % of the level. */
  double perPercent() {
    double probe = probe();
    double[] lower = beyond.clone();
    double[] higher = beyond.clone();
    for (int i = 0; i < 4; i++) {
      lower[i] += probe;
      higher[i] -= probe;
    }
    return Math.abs(place(higher).offset() - place(lower).offset()) / (2.0 * probe);
  }

  /** The crossing's standard uncertainty by independent errors of the four samples. */
  double noiseStandard(double standard) {
    double probe = probe();
    double squares = 0.0;
    for (int i = 0; i < 4; i++) {
      double[] changed = beyond.clone();
      changed[i] += probe;
      double by = (place(changed).offset() - offset()) / probe;
      squares += by * by;
    }
    return standard * Math.sqrt(squares);
  }

  /**
   * How much of the bound of a stamp the crossing takes over: all of it if the stamps are off
   * alike, and if each is off by itself the root of the sum of squares, which is more where
   * neighbouring intervals are prolonged.
   */
  double stampShare() {
    double probe = PROBE * interval();
    double base = seconds[1] + offset();
    double squares = 0.0;
    for (int i = 0; i < 4; i++) {
      double[] changed = seconds.clone();
      changed[i] += probe;
      Bracket moved = new Bracket(changed, beyond, deviation, corner);
      double by = (changed[1] + moved.offset() - base) / probe;
      squares += by * by;
    }
    return squares > 1.0 ? Math.sqrt(squares) : 1.0;
  }

  private double probe() {
    return PROBE * (beyond[2] - beyond[1]);
  }

  private Place place(double[] u) {
    double h = interval();
    double speed = (u[2] - u[1]) / h;
    double chord = -u[1] / speed;
    if (h <= 0.0) {
      return new Place(0.0, 0.0);
    }
    double left = (u[1] - u[0]) / (seconds[1] - seconds[0]);
    double right = (u[3] - u[2]) / (seconds[3] - seconds[2]);
    if (!Double.isFinite(left) || !Double.isFinite(right)) {
      return new Place(chord, h / 2.0);
    }
    if (Math.abs(left) < FLAT * speed && Math.abs(right) < FLAT * speed) {
      return new Place(h / 2.0, h / 2.0);
    }
    double meet = (u[2] - right * h - u[1]) / (left - right);
    if (!(meet > 0.0 && meet < h)) {
      return new Place(chord, 0.0);
    }
    boolean onLeft = u[1] + left * meet >= 0.0;
    double prolonged = onLeft ? -u[1] / left : h - u[2] / right;
    if (!(prolonged >= 0.0 && prolonged <= h)) {
      return new Place(chord, 0.0);
    }
    double apart = prolonged - chord;
    double share = onLeft ? chord / h : 1.0 - chord / h;
    if (!corner && Math.abs(apart) <= DISTINCT * Math.sqrt(6.0) * share * deviation / speed) {
      return new Place(chord, 0.0);
    }
    return corner
        ? new Place(chord + CORNER_SHARE * apart, CORNER_HALF_SHARE * Math.abs(apart))
        : new Place(chord + SHARE * apart, HALF_SHARE * Math.abs(apart));
  }
}
