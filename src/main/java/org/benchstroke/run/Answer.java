package org.benchstroke.run;

import java.util.OptionalDouble;

/** What came of a {@link Question}. Immutable. */
public sealed interface Answer {
  /**
   * It goes on.
   *
   * @param how it was said, for the record: "y, at the terminal"
   */
  record Yes(String how) implements Answer {}

  /**
   * What was read or measured.
   *
   * @param value as typed, in the unit of the question
   */
  record Figure(double value) implements Answer {}

  /** No, or nobody is there: nothing goes on. */
  record No() implements Answer {}

  /** See {@link No}. */
  static Answer no() {
    return new No();
  }

  /** The number that was given; empty if none was. */
  default OptionalDouble figure() {
    return this instanceof Figure given ? OptionalDouble.of(given.value()) : OptionalDouble.empty();
  }
}
