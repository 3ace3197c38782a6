package org.benchstroke.app.history;

/** How what is asked for is called where a person asks, so that a mistake names its place. */
public enum Naming {
  /** Options of a command. */
  OPTIONS("--"),
  /** Fields of a form. */
  FIELDS("");

  private final String before;

  Naming(String before) {
    this.before = before;
  }

  /** The name of a field. */
  public String of(String field) {
    return before + field;
  }
}
