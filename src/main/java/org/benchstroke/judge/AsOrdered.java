package org.benchstroke.judge;

/**
 * Something that is either as ordered or not: the action, the behaviour on loss of signal.
 * Immutable.
 *
 * @param subject what it is about
 * @param which which of its kind: a way of loss, an end, a setpoint; empty if there is but one
 * @param ordered what the unit type states, in words
 * @param found what was seen, in words with numbers
 * @param word pass, fail or no result
 * @param method id and version of the method
 */
public record AsOrdered(
    Subject subject, String which, String ordered, String found, Word word, String method) {
  /** Of a loss of the signal: that the unit comes back when the signal does. */
  public static final String RECOVERY = "recovery";

  /** What can be as ordered or not. */
  public enum Subject {
    /** Which way the unit goes with its signal. */
    ACTION("action", ""),
    /** Whether it comes to its setpoints. */
    SETPOINTS("setpoints", ""),
    /** The order of the switches of an end. */
    SWITCHES("switches", ", "),
    /** Whether it stays where it is held. */
    HUNTING("hunting", " at "),
    /** What it does on a way of losing its signal, and that it recovers. */
    SIGNAL_LOSS("signal loss", ": "),
    /** That it comes back after its power was cut. */
    POWER_LOSS("power loss", " "),
    /** That it goes to a part of its travel and comes back. */
    PARTIAL_STROKE("partial stroke", " "),
    /** As many moves as its duty has. */
    DUTY("duty", ""),
    /** A figure that a person must record, under the name that the procedure gives it. */
    BY_HAND("", "");

    private final String words;
    private final String join;

    Subject(String words, String join) {
      this.words = words;
      this.join = join;
    }

    /** It alone, in words. */
    public String words() {
      return words;
    }

    /** It and which of its kind, in words. */
    public String words(String which) {
      return words + join + which;
    }
  }

  /** "action", "signal loss: open loop". */
  public String what() {
    return subject.words(which);
  }

  /** The same without a result, for the file holds more of its kind. */
  AsOrdered withMore(String more) {
    return new AsOrdered(subject, which, ordered, found + "; " + more, Word.NO_RESULT, method);
  }

  /** Whether it is about this. */
  public boolean isOf(Subject other) {
    return subject == other;
  }
}
