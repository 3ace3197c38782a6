package org.benchstroke.io.instrument;

import java.util.List;
import java.util.OptionalInt;

/**
 * How an instrument is asked, with what its driver must know of it for that. Each driver has its
 * own. It is read, and judged by, where no instrument is: it needs no port. Immutable.
 */
public interface Talk {
  Language language();

  /** The number that tells it from others at its endpoint, if its language has such numbers. */
  default OptionalInt numberAtEndpoint() {
    return OptionalInt.empty();
  }

  /** What of it is worth to be told as it was understood, a line each. */
  default List<String> understood() {
    return List.of();
  }
}
