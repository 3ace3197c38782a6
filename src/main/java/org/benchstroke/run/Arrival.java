package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Trace;

/**
 * How a wait for rest ended.
 *
 * @param restPercent where, %; empty if it did not settle
 * @param clean whether the approach was one-way
 * @param window what was read at rest; empty if it did not settle or a person read it
 * @param seen all that was read while it was waited for
 */
record Arrival(OptionalDouble restPercent, boolean clean, Optional<Spread> window, Trace seen) {
  /** The unit did not come to rest. */
  static Arrival none() {
    return new Arrival(OptionalDouble.empty(), false, Optional.empty(), Trace.empty());
  }
}
