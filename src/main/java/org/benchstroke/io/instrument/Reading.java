package org.benchstroke.io.instrument;

/**
 * One answer of an instrument. The value belongs to an instant between request and reply; the
 * middle is the best stamp, with u = (reply − request)/(2·√3) (rectangular, JCGM 100:2008 4.3.7).
 *
 * @param value what was read, in its own type with its unit
 * @param quality what can be said of it
 * @param raw the reply as it came, for the record
 * @param askedNanos bench time when the request was sent
 * @param answeredNanos bench time when the reply was complete
 */
public record Reading<T>(
    T value, Quality quality, String raw, long askedNanos, long answeredNanos) {
  /** Begins the raw text of a setting whose own reply failed, but which its read-back confirmed. */
  public static final String DOUBTED_WRITE = "the write: ";

  /** Stands in the raw text of a reading that was asked for twice, before the reason. */
  public static final String ASKED_AGAIN = "asked again after ";

  /** Whether the first reply was bad and this is the answer to a second request. */
  public boolean askedAgain() {
    return raw.contains(ASKED_AGAIN);
  }

  /** Whether this is a setting that only its read-back confirmed; the raw text says why. */
  public boolean writeDoubted() {
    return raw.startsWith(DOUBTED_WRITE);
  }

  public long stampNanos() {
    return askedNanos + (answeredNanos - askedNanos) / 2;
  }
}
