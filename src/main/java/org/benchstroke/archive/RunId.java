package org.benchstroke.archive;

import java.time.Instant;

/**
 * The number of a run: the milliseconds of its begin since 1970, times 65536, and the first 16 bits
 * of its record's digest, or the next that are free. So a run has the same number in nearly every
 * archive, numbers sort by time, and a span of time is a span of numbers. Stateless.
 */
final class RunId {
  private static final int BITS = 16;
  private static final int DIGITS = BITS / 4;

  /** What can be numbered, ms: some two thousand years either way; no bench was earlier. */
  private static final long FURTHEST = 1L << (Long.SIZE - 2 - BITS);

  /** How many runs may begin in one millisecond. */
  static final int ROOM = 1 << BITS;

  private RunId() {}

  /** The lowest of the runs that begin at this instant, to the millisecond. */
  static long first(Instant begun) {
    return Math.max(-FURTHEST, Math.min(begun.toEpochMilli(), FURTHEST)) << BITS;
  }

  /** Where the search for a free one begins. */
  static long wanted(Instant begun, String sha256) {
    return first(begun) + Integer.parseInt(sha256.substring(0, DIGITS), 16);
  }

  /** The one to try next. */
  static long after(long id) {
    return (id & -ROOM) + ((id + 1) & (ROOM - 1));
  }
}
