package org.benchstroke.core.analysis;

import java.util.OptionalDouble;

/**
 * What a unit did after a disturbance. Immutable.
 *
 * @param startPercent where it stood before, % of travel
 * @param endPercent the mean of its last samples, %
 * @param excursionPercent the position furthest from the start, less the start, %
 * @param startedAfterSeconds when it first moved; empty if it didn't move
 * @param watchedSeconds how long it was watched, s
 * @param moving whether it was still moving when the trace ended
 */
public record Motion(
    double startPercent,
    double endPercent,
    double excursionPercent,
    OptionalDouble startedAfterSeconds,
    double watchedSeconds,
    boolean moving) {
  private static final int LAST_SAMPLES = 10;

  /**
   * Describes a trace.
   *
   * @param trace after the disturbance, not empty
   * @param disturbedSeconds when it was disturbed
   * @param startPercent where it stood before
   * @param thresholdPercent a departure above this is motion, not noise; above 0
   */
  public static Motion of(
      Trace trace, double disturbedSeconds, double startPercent, double thresholdPercent) {
    double excursion = 0.0;
    OptionalDouble started = OptionalDouble.empty();
    for (int i = 0; i < trace.size(); i++) {
      double departure = trace.percent(i) - startPercent;
      excursion = Math.abs(departure) > Math.abs(excursion) ? departure : excursion;
      // Two in a row: a single one may be a spike.
      boolean again = i > 0 && Math.abs(trace.percent(i - 1) - startPercent) > thresholdPercent;
      if (started.isEmpty() && again && Math.abs(departure) > thresholdPercent) {
        started = OptionalDouble.of(trace.seconds(i - 1) - disturbedSeconds);
      }
    }
    Trace last = trace.last(LAST_SAMPLES);
    double watched = trace.seconds(trace.size() - 1) - disturbedSeconds;
    boolean moving = last.spread().range() > thresholdPercent;
    return new Motion(startPercent, last.spread().mean(), excursion, started, watched, moving);
  }

  public boolean moved() {
    return startedAfterSeconds.isPresent();
  }

  /**
   * How long after the disturbance the position came within a band for good: from then on every
   * sample lies in it. Empty if the last sample doesn't.
   */
  public static OptionalDouble withinForGood(
      Trace trace, double disturbedSeconds, double lowPercent, double highPercent) {
    OptionalDouble since = OptionalDouble.empty();
    for (int i = 0; i < trace.size(); i++) {
      boolean inside = trace.percent(i) >= lowPercent && trace.percent(i) <= highPercent;
      if (!inside) {
        since = OptionalDouble.empty();
      } else if (since.isEmpty()) {
        since = OptionalDouble.of(trace.seconds(i) - disturbedSeconds);
      }
    }
    return since;
  }
}
