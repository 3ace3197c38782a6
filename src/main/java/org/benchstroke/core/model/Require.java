package org.benchstroke.core.model;

import org.benchstroke.core.quantity.Numbers;

/** Ranges of parameters. */
final class Require {
  private Require() {}

  static void within(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what
              + " must be "
              + Numbers.plain(low)
              + " to "
              + Numbers.plain(high)
              + ", not "
              + Numbers.plain(value));
    }
  }

  static void below(String lower, double low, String upper, double high) {
    if (!(low < high)) {
      throw new IllegalArgumentException(
          lower
              + " ("
              + Numbers.plain(low)
              + ") must be below "
              + upper
              + " ("
              + Numbers.plain(high)
              + ")");
    }
  }
}
