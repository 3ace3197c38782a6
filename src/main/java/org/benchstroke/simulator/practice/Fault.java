package org.benchstroke.simulator.practice;

import org.benchstroke.aids.diagnosis.Cause;

/**
 * A fault to be drawn. Immutable.
 *
 * @param cause what is wrong
 * @param form which of its {@link FaultDraw#forms}, from 0
 * @param severity how far it goes
 */
public record Fault(Cause cause, int form, Severity severity) {
  /** In the form that comes with a seed, each of them as often. */
  public static Fault of(Cause cause, Severity severity, long seed) {
    return new Fault(
        cause, (int) Math.floorMod(seed, (long) FaultDraw.forms(cause).size()), severity);
  }
}
