package org.benchstroke.io.instrument;

import java.util.Set;

/**
 * One answer of an instrument. The value belongs to an instant between request and reply; the
 * middle is the best stamp, with u = (reply − request)/(2·√3) (rectangular, JCGM 100:2008 4.3.7).
 *
 * @param value what was read, in its own type with its unit
 * @param doubts what may be wrong with it
 * @param raw the reply as it came, for the record
 * @param askedNanos bench time when the request was sent
 * @param answeredNanos bench time when the reply was complete
 */
public record Reading<T>(
    T value, Set<Doubt> doubts, String raw, long askedNanos, long answeredNanos) {
  public Reading {
    doubts = Set.copyOf(doubts);
  }

  /** Whether that may be wrong with it. */
  public boolean is(Doubt doubt) {
    return doubts.contains(doubt);
  }

  public long stampNanos() {
    return askedNanos + (answeredNanos - askedNanos) / 2;
  }
}
