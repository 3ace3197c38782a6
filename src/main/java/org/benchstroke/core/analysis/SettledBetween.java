package org.benchstroke.core.analysis;

/**
 * Between which instants a response surely came within a band for good, whatever the noise: before
 * the first a mean of neighbouring samples is surely outside, from the second on all are surely
 * within. A swing whose top just reaches the band, so that noise decides whether it counts, lies
 * between the two. One thread.
 *
 * @param from when it was surely outside for the last time, s
 * @param to when it was perhaps outside for the last time, s
 */
record SettledBetween(double from, double to) {
  /** A mean this many of its standard uncertainties from the band is surely in or out of it. */
  private static final double SURE = 3.0;

  /** The mean is over this many samples to either side: more would flatten a narrow swing. */
  private static final int BESIDE = 1;

  /** Through a clean crossing the means need no longer than this many times what noise explains. */
  private static final double CLEAN = 2.0;

  /**
   * Looks for them.
   *
   * @param middle where to begin; the trace is surely outside before it
   */
  static SettledBetween of(Trace trace, int middle, Rest finish, double standard, double band) {
    double margin = SURE * standard / Math.sqrt(2.0 * BESIDE + 1.0);
    int last = trace.size() - 1 - BESIDE;
    while (last > middle && beyond(trace, last, finish) < band - margin) {
      last--;
    }
    int sure = last;
    while (sure > middle && beyond(trace, sure, finish) <= band + margin) {
      sure--;
    }
    return new SettledBetween(trace.seconds(sure), trace.seconds(last + BESIDE));
  }

  private static double beyond(Trace trace, int index, Rest finish) {
    int from = Math.max(0, index - BESIDE);
    int end = index + BESIDE + 1;
    double sum = 0.0;
    for (int i = from; i < end; i++) {
      sum += trace.percent(i) - finish.percent();
    }
    return Math.abs(sum / (end - from));
  }

  /** Whether that is one clean crossing, which takes no longer than noise and samples explain. */
  boolean clean(Crossing crossing, double standard) {
    double noise = 2.0 * SURE * standard * crossing.perPercent();
    double samples = (2.0 * BESIDE + 2.0) * crossing.intervalSeconds();
    return crossing.seconds() >= from - samples
        && crossing.seconds() <= to + samples
        && to - from <= CLEAN * noise + samples;
  }

  double middle() {
    return (from + to) / 2.0;
  }

  double half() {
    return (to - from) / 2.0;
  }
}
