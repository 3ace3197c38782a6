package org.benchstroke.io.instrument;

import java.util.Set;

/** What may be wrong with a reading. A reading can be doubted for several reasons. */
public enum Doubt {
  /** At or beyond the end of the channel's range: the true value may lie further out. */
  SATURATED,
  /** The first reply was bad; this answers a second request. */
  ASKED_AGAIN,
  /** A setting whose own reply failed, and that only its read-back confirmed. */
  WRITE_UNCONFIRMED;

  /** No doubt at all. */
  public static final Set<Doubt> NONE = Set.of();
}
