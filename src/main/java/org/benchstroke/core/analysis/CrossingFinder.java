package org.benchstroke.core.analysis;

/**
 * Finds when a position crossed a level, given the two samples between which it seems to have done
 * so. Where the position changes by far more than the noise from one sample to the next, those two
 * and their neighbours serve ({@link Bracket}); else a curve through as many samples around as it
 * takes to rise out of the noise ({@link LocalCurve}).
 */
final class CrossingFinder {
  /** A change from sample to sample of this many noise deviations is clear of them. */
  private static final double CLEAR = 6.0;

  /** A curve is fitted to samples that reach this many noise deviations to either side. */
  private static final double REACH = 3.0;

  /** Next to a corner a change from sample to sample of this many deviations must do. */
  private static final double CORNER = 2.5;

  /** What a corner among the samples of a curve may shift, in intervals; found by simulation. */
  private static final double CORNER_HALF = 1.0;

  /** The same as a share of half the time that the curve spans. */
  private static final double CORNER_SPAN = 0.3;

  /** A parabola is fitted to this many samples around a crossing, a line to fewer. */
  private static final int FEW = 6;

  private static final int LEAST_SIDE = 3;
  private static final int WIDER = 4;
  private static final int RECENTRINGS = 6;

  /** The window moves by no more than this many of its half-widths at once. */
  private static final double FURTHEST = 2.0;

  private final Trace trace;
  private final PositionNoise noise;
  private final int widest;

  CrossingFinder(Trace trace, PositionNoise noise) {
    this.trace = trace;
    this.noise = noise;
    this.widest = Math.max(LEAST_SIDE, trace.size() / 8);
  }

  /**
   * Finds it.
   *
   * @param before the index of the last sample before the crossing; not the last of the trace
   * @param level what is crossed, %
   * @param sign 1 if it is crossed upwards, −1 downwards
   */
  Crossing at(int before, double level, double sign) {
    double rise = sign * (trace.percent(before + 1) - trace.percent(before));
    boolean clear = rise > 0.0 && rise >= CLEAR * noise.standard();
    return clear ? bracketed(before, level, sign, false) : fitted(before, level, sign, 0.0);
  }

  /**
   * Finds when a position that left its rest crossed a level close by. Between rest and motion lies
   * a corner, which no curve may be fitted over: only samples of the motion serve.
   */
  Crossing afterRest(int before, double level, double sign) {
    double rise = sign * (trace.percent(before + 1) - trace.percent(before));
    double least = CORNER * noise.standard();
    // Among many samples the last one below a level is one that the noise put far out.
    boolean clear = rise >= least && meanRise(before, sign) >= least;
    if (clear) {
      Crossing crossing = bracketed(before, level, sign, true);
      // A jump between two level stretches may be noise unless it is far above it.
      if (crossing.perPercent() > 0.0 || rise >= CLEAR * noise.standard()) {
        return crossing;
      }
    }
    return fitted(before, level, sign, CORNER_HALF);
  }

  private Crossing bracketed(int before, double level, double sign, boolean corner) {
    Bracket bracket = Bracket.around(trace, before, level, sign, noise.standard(), corner);
    return new Crossing(
        trace.seconds(before) + bracket.offset(),
        bracket.interval(),
        bracket.perPercent(),
        bracket.half(),
        bracket.noiseStandard(noise.standard()),
        stamp(before) * bracket.stampShare(),
        before);
  }

  private Crossing fitted(int before, double level, double sign, double corner) {
    int centre = before;
    LocalCurve curve = grown(centre, level, sign);
    for (int i = 0; i < RECENTRINGS && (curve.crosses() || curve.meanSlope() > 0.0); i++) {
      int next = Math.max(0, Math.min(trace.size() - 2, trace.indexAt(nearer(centre, curve)) - 1));
      if (Math.abs(next - centre) <= 1) {
        break;
      }
      centre = next;
      curve = grown(centre, level, sign);
    }
    if (!curve.crosses()) {
      // Too flat for a curve: all that can be said is that it was within the window.
      return new Crossing(
          trace.seconds(before),
          interval(before),
          0.0,
          curve.halfSpan(),
          0.0,
          stamp(before),
          before);
    }
    return new Crossing(
        curve.seconds(),
        interval(centre),
        1.0 / curve.slope(),
        corner * Math.max(interval(centre), CORNER_SPAN * curve.halfSpan()),
        curve.standard() / curve.slope(),
        stamp(centre),
        centre);
  }

  /** Of the three samples after an interval over the three before it. */
  private double meanRise(int before, double sign) {
    int first = Math.max(0, before - 2);
    int end = Math.min(trace.size(), before + 4);
    double earlier = trace.mean(first, before + 1);
    double later = trace.mean(before + 1, end);
    return sign * (later - earlier);
  }

  /** Among many samples noise shows the crossing too early or too late: where it rather is. */
  private double nearer(int centre, LocalCurve curve) {
    if (curve.crosses()) {
      return curve.seconds();
    }
    double now = trace.seconds(centre);
    double most = FURTHEST * curve.halfSpan();
    return Math.max(now - most, Math.min(now + most, curve.lineSeconds()));
  }

  /** The curve over the fewest samples that rise out of the noise. */
  private LocalCurve grown(int centre, double level, double sign) {
    int side = LEAST_SIDE;
    LocalCurve curve = curve(centre, side, level, sign);
    // One reading far out makes a few samples look steep: the samples around must rise too.
    while (side < widest && !(rises(curve) && rises(curve(centre, WIDER * side, level, sign)))) {
      side = Math.min(widest, side + Math.max(1, side / 3));
      curve = curve(centre, side, level, sign);
    }
    return curve;
  }

  private boolean rises(LocalCurve curve) {
    return curve.meanSlope() * curve.halfSpan() >= REACH * noise.standard();
  }

  private LocalCurve curve(int centre, int side, double level, double sign) {
    int first = Math.max(0, centre - side + 1);
    int end = Math.min(trace.size(), centre + side + 1);
    return LocalCurve.through(trace.slice(first, end), level, sign, noise, FEW);
  }

  private double interval(int before) {
    return trace.seconds(before + 1) - trace.seconds(before);
  }

  private double stamp(int before) {
    return Math.max(trace.stampHalfSeconds(before), trace.stampHalfSeconds(before + 1));
  }
}
