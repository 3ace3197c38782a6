package org.benchstroke.io.instrument;

import java.util.Locale;

/** What can be said of a reading's value. */
public enum Quality {
  /** Inside the channel's range. */
  GOOD,
  /** At or beyond the end of the channel's range: the true value may lie further out. */
  SATURATED;

  private final String key = name().toLowerCase(Locale.ROOT);

  /** As it stands in a record. */
  public String key() {
    return key;
  }
}
