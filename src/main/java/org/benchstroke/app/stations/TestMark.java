package org.benchstroke.app.stations;

/**
 * What has become of a test so far.
 *
 * @param name the test
 * @param mark how far it is
 * @param attempt which attempt at it; 0 before the first
 * @param reason why it is void or was not done; else empty
 */
public record TestMark(String name, Mark mark, int attempt, String reason) {
  /** How far a test is; a shape and a word for each, for a screen shows it by shape first. */
  public enum Mark {
    WAITING("▯", "waiting"),
    RUNNING("▶", "running"),
    DONE("▮", "done"),
    VOID("✕", "void"),
    NOT_DONE("∅", "not done");

    private final String shape;
    private final String word;

    Mark(String shape, String word) {
      this.shape = shape;
      this.word = word;
    }

    public String shape() {
      return shape;
    }

    public String word() {
      return word;
    }
  }
}
