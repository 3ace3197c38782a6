package org.benchstroke.app.stations;

/** What was asked of a station does not fit how it stands; the message says why. */
public final class NotNow extends Exception {
  private static final long serialVersionUID = 1L;

  NotNow(String message) {
    super(message);
  }
}
