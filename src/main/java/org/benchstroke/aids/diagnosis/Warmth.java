package org.benchstroke.aids.diagnosis;

import org.benchstroke.core.analysis.Trace;

/**
 * How warm a unit's own running has made it: seconds of running, less what it has lost since.
 * Strokes close upon each other warm it and a long hold lets it cool, so that what drifts with the
 * heat is no straight line over a run. One thread.
 */
final class Warmth {
  /** In which it loses all but a third, s: a motor in its housing; our choice, no source. */
  private static final double LOSES_SECONDS = 900.0;

  /** Slower than this part of its speed it does not run: what moves is the noise. */
  private static final double RUNS = 0.25;

  private final Trace position;
  private final double[] warmth;

  /** Of a unit that runs at so many per cent of travel a second. */
  Warmth(Trace position, double percentPerSecond) {
    this.position = position;
    this.warmth = new double[position.size() + 1]; // before each sample, and after the last
    for (int i = 1; i < position.size(); i++) {
      double lasted = position.seconds(i) - position.seconds(i - 1);
      double ran = Math.abs(position.percent(i) - position.percent(i - 1)) / percentPerSecond;
      double kept = warmth[i] * Math.exp(-lasted / LOSES_SECONDS);
      warmth[i + 1] = kept + (ran > RUNS * lasted ? Math.min(ran, lasted) : 0.0);
    }
  }

  /** At an instant; 0 before the first reading. */
  double at(double seconds) {
    return warmth[position.indexAt(seconds)];
  }
}
