package org.benchstroke.run;

import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Leg;

/**
 * What is waited for.
 *
 * @param aim what for
 * @param leg which part of its step it is
 * @param label its name for people
 * @param targetPercent the setpoint, %
 * @param direction "up", "down" or "none"
 * @param cycle from 1, or 0
 * @param sinceNanos when the change was confirmed
 * @param earliestSeconds rest is not believed before
 * @param timeoutSeconds the wait is given up then
 * @param signalOn whether the setpoint stands in the loop
 */
record Wait(
    Aim aim,
    Leg leg,
    String label,
    double targetPercent,
    String direction,
    int cycle,
    long sinceNanos,
    double earliestSeconds,
    double timeoutSeconds,
    boolean signalOn) {
  /** Whether a person reads all there is where this comes to rest. */
  boolean readsAll() {
    return leg == Leg.ARRIVAL && aim.byEye() == Aim.ByEye.ALL;
  }

  double secondsAt(long nanos) {
    return (nanos - sinceNanos) / 1e9;
  }
}
