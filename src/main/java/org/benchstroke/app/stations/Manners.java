package org.benchstroke.app.stations;

/**
 * How a station treats people.
 *
 * @param countDownSeconds from consent to motion, s
 * @param holdMillis how long a key or button is held to consent to motion, ms of wall time
 * @param aloneSeconds after so long without any screen that may stop it a run whose output is live
 *     is stopped, s of wall time
 */
public record Manners(int countDownSeconds, long holdMillis, long aloneSeconds) {
  /** Own choice. */
  public static final Manners USUAL = new Manners(3, 900, 30);
}
