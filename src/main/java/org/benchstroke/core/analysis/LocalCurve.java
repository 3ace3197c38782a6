package org.benchstroke.core.analysis;

/**
 * A parabola by least squares through the samples around a crossing, or a straight line where they
 * are few. Immutable.
 *
 * @param seconds where it crosses the level
 * @param slope its slope there in the direction of the crossing, %/s; 0 if it is not near
 * @param standard the standard uncertainty of its value there, %
 * @param meanSlope the slope of the straight line through the same samples, %/s
 * @param lineSeconds where that line crosses the level
 * @param halfSpan half the time that the samples span
 * @param crosses whether it crosses the level within the samples, in the right direction
 */
record LocalCurve(
    double seconds,
    double slope,
    double standard,
    double meanSlope,
    double lineSeconds,
    double halfSpan,
    boolean crosses) {
  /** A crossing a little outside the samples can still be told. */
  private static final double NEAR = 1.5;

  static LocalCurve through(
      Trace samples, double level, double sign, PositionNoise noise, int parabola) {
    Parabola p = Parabola.fit(samples, level, sign, samples.size() >= parabola);
    double half = p.scale();
    double x = p.root();
    double slope = p.slopeAt(x) / half;
    double mean = p.meanSlope() / half;
    boolean near = Math.abs(x) <= NEAR && slope > 0.0;
    boolean crosses = Math.abs(x) <= 1.0 && slope > 0.0;
    double variance = noise.varianceOnSlope(samples.size(), Math.abs(mean) * 2.0 * half);
    double standard = Math.sqrt(variance * p.leverage(near ? x : 0.0));
    return new LocalCurve(
        p.centre() + x * half,
        near ? slope : 0.0,
        standard,
        mean,
        p.centre() + p.lineRoot() * half,
        half,
        crosses);
  }
}
