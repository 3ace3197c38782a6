package org.benchstroke.judge;

/** By what a position or another quantity was known. */
public enum Truth {
  /** The unit's own feedback: proves the controller, not the valve. */
  FEEDBACK("feedback"),
  /** An independent angle reference on the stem. */
  STEM("stem"),
  /** The clock of the bench, on samples of the feedback. */
  CLOCK("bench clock"),
  /** A meter of the bench that measures something else than a position. */
  METER("bench meter");

  private final String text;

  Truth(String text) {
    this.text = text;
  }

  public String text() {
    return text;
  }
}
