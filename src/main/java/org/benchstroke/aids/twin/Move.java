package org.benchstroke.aids.twin;

import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;

/**
 * A change of the setpoint between two rests, and what the unit did. Positions in % of travel,
 * times in seconds since the record was opened. Of a rest only the second half counts: in the first
 * the feedback's own lag still dies away. Immutable.
 *
 * @param place the name of the rest after it
 * @param from the setpoint before
 * @param to the setpoint after
 * @param at when the source was told
 * @param before where it rested before
 * @param after where it rested after
 * @param lastSign which way it had moved last: 1 up, −1 down, 0 not known
 * @param motions how many motions it made: 1 for a clean approach
 * @param trace the position from the change to the rest
 */
record Move(
    String place,
    double from,
    double to,
    double at,
    Spread before,
    Spread after,
    int lastSign,
    int motions,
    Trace trace) {

  /** Which way the setpoint asked it to go. */
  int sign() {
    return to > before.mean() ? 1 : -1;
  }

  double way() {
    return after.mean() - before.mean();
  }

  boolean moved() {
    return motions > 0;
  }

  /** Whether it turned round: all play is to be crossed first. */
  boolean reverses() {
    return lastSign == -sign();
  }

  /** The setpoint less where it stood, along the way that it was asked to go. */
  double askedPercent(Stops stops) {
    return sign() * (to - stops.position(before.mean()));
  }
}
