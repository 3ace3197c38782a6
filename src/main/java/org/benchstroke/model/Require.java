package org.benchstroke.model;

/** Ranges of parameters. */
final class Require {
  private Require() {}

  static void within(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " must be " + low + " to " + high + ", not " + value);
    }
  }

  static void below(String lower, double low, String upper, double high) {
    if (!(low < high)) {
      throw new IllegalArgumentException(
          lower + " (" + low + ") must be below " + upper + " (" + high + ")");
    }
  }
}
