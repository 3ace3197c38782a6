package org.benchstroke.instrument;

/** What can be said of a reading's value. */
public enum Quality {
  /** Inside the channel's range. */
  GOOD,
  /** At or beyond the end of the channel's range: the true value may lie further out. */
  SATURATED
}
