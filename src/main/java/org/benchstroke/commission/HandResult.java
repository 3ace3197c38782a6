package org.benchstroke.commission;

import org.benchstroke.record.Event;

/**
 * How work by hand ended, and how the bench was left.
 *
 * @param how in which way
 * @param reason in words
 * @param safe what became of the safe signal
 * @param power what became of the motor power, in words
 */
public record HandResult(How how, String reason, Event.MadeSafe safe, String power) {

  /** The ways in which it ends. */
  public enum How {
    /** As asked. */
    DONE,
    /** A stop, or a caution that was not acknowledged. */
    STOPPED,
    /** An instrument is not the one that the bench file says. */
    NOT_PROVEN,
    /** An exchange failed. */
    LINK_LOST,
    /** Anything else. */
    FAULT
  }

  /** Whether it ended as asked and left the unit safe. */
  public boolean clean() {
    return how == How.DONE && safe.confirmed();
  }
}
