package org.benchstroke.judge;

/** What a value with its U, its word and its probability speak of. */
public enum Scope {
  /** The unit: how it scatters from one time to the next is in U. */
  UNIT("unit"),
  /** What the unit did when it was read: how it scatters from one time to the next is not in U. */
  READINGS("readings taken");

  private final String key;

  Scope(String key) {
    this.key = key;
  }

  /** "unit", "readings taken". */
  public String key() {
    return key;
  }
}
