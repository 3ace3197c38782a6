package org.benchstroke.core.analysis;

/**
 * Slopes of straight lines by least squares through windows of a trace that overlap: by sums up to
 * each sample, so that a window costs no more than a look. Immutable.
 */
final class Slopes {
  private final double[] x;
  private final double[] xx;
  private final double[] y;
  private final double[] xy;

  private Slopes(int size) {
    this.x = new double[size + 1];
    this.xx = new double[size + 1];
    this.y = new double[size + 1];
    this.xy = new double[size + 1];
  }

  /** Of some samples: few enough that their sums keep their digits, some thousands. */
  static Slopes of(Trace samples) {
    int n = samples.size();
    Slopes sums = new Slopes(n);
    // From the middle of both, so that little is lost in the differences.
    double centre = n == 0 ? 0.0 : (samples.seconds(0) + samples.seconds(n - 1)) / 2.0;
    double level = n == 0 ? 0.0 : (samples.percent(0) + samples.percent(n - 1)) / 2.0;
    for (int i = 0; i < n; i++) {
      double t = samples.seconds(i) - centre;
      double p = samples.percent(i) - level;
      sums.x[i + 1] = sums.x[i] + t;
      sums.xx[i + 1] = sums.xx[i] + t * t;
      sums.y[i + 1] = sums.y[i] + p;
      sums.xy[i + 1] = sums.xy[i] + t * p;
    }
    return sums;
  }

  /** Of a window of so many samples, %/s; 0 where they span no time. */
  double over(int from, int count) {
    int end = from + count;
    return Parabola.slope(
        count, x[end] - x[from], xx[end] - xx[from], y[end] - y[from], xy[end] - xy[from]);
  }
}
