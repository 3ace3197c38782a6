package org.benchstroke.judge;

import org.benchstroke.unit.MeasureKind;

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

  /** By what a measure is known where no reference is on the stem. */
  public static Truth of(MeasureKind kind) {
    return switch (kind.knownBy()) {
      case POSITION -> FEEDBACK;
      case CLOCK -> CLOCK;
      case METER -> METER;
    };
  }

  Truth(String text) {
    this.text = text;
  }

  public String text() {
    return text;
  }
}
