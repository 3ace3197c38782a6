package org.benchstroke.papers;

/** The sheet that a paper is set for. */
public enum PaperSize {
  A4("A4"),
  LETTER("letter");

  private final String key;

  PaperSize(String key) {
    this.key = key;
  }

  /** As a file and a style sheet write it. */
  public String key() {
    return key;
  }
}
