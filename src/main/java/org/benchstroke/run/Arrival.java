package org.benchstroke.run;

import java.util.OptionalDouble;

/**
 * How a wait for rest ended.
 *
 * @param restPercent where, %; empty if it did not settle
 * @param clean whether the approach was one-way
 */
record Arrival(OptionalDouble restPercent, boolean clean) {
  /** The unit did not come to rest. */
  static Arrival none() {
    return new Arrival(OptionalDouble.empty(), false);
  }
}
