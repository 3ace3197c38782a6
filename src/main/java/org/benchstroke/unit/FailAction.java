package org.benchstroke.unit;

/** What a unit does when its signal is lost. */
public enum FailAction {
  CLOSE("close"),
  OPEN("open"),
  STAY("stay");

  private final String key;

  FailAction(String key) {
    this.key = key;
  }

  /** The word for it in files. */
  public String key() {
    return key;
  }
}
