package org.benchstroke.run;

/**
 * What is waited for.
 *
 * @param point its name in the record
 * @param targetPercent the setpoint, %
 * @param direction "up", "down" or "none"
 * @param cycle from 1, or 0
 * @param sinceNanos when the change was confirmed
 * @param earliestSeconds rest is not believed before
 * @param timeoutSeconds the wait is given up then
 * @param signalOn whether the setpoint stands in the loop
 */
record Wait(
    String point,
    double targetPercent,
    String direction,
    int cycle,
    long sinceNanos,
    double earliestSeconds,
    double timeoutSeconds,
    boolean signalOn) {
  double secondsAt(long nanos) {
    return (nanos - sinceNanos) / 1e9;
  }
}
