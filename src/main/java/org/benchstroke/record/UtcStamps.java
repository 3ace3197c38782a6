package org.benchstroke.record;

import java.time.Instant;

/**
 * Reads the wall clock's stamps of a record. Most lie in the same second as the one before, so that
 * each second is read once. One thread.
 */
final class UtcStamps {
  /** As long as 2026-06-01T08:00:00, before the point and the digits of a fraction. */
  private static final int SECOND = 19;

  private static final int MOST_DIGITS = 9;

  private String second = "";
  private Instant at = Instant.EPOCH;

  /**
   * The instant of a stamp as {@link Instant#toString} writes it.
   *
   * @throws java.time.format.DateTimeParseException if it is none
   */
  Instant read(String text) {
    int digits = text.length() - SECOND - 2;
    boolean usual =
        digits >= 1
            && digits <= MOST_DIGITS
            && text.charAt(SECOND) == '.'
            && text.charAt(text.length() - 1) == 'Z';
    if (!usual) {
      return Instant.parse(text);
    }
    long nanos = 0;
    for (int i = 1; i <= MOST_DIGITS; i++) {
      int digit = i <= digits ? text.charAt(SECOND + i) - '0' : 0;
      if (digit < 0 || digit > 9) {
        return Instant.parse(text);
      }
      nanos = 10 * nanos + digit;
    }
    if (!text.startsWith(second) || second.isEmpty()) {
      String next = text.substring(0, SECOND);
      at = Instant.parse(next + "Z");
      second = next;
    }
    return at.plusNanos(nanos);
  }
}
