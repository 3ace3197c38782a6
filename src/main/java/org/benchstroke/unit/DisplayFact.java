package org.benchstroke.unit;

import java.util.Arrays;
import java.util.Optional;

/** What a unit's own display says of it, and what the order can be compared with. */
public enum DisplayFact {
  SOFTWARE("software"),
  VOLTAGE("voltage"),
  DEAD_BAND("dead band"),
  LOSS_ACTION("loss action"),
  DIRECTION("direction");

  private final String key;

  DisplayFact(String key) {
    this.key = key;
  }

  /** The word for it in files, and for people. */
  public String key() {
    return key;
  }

  /** The one with this word. */
  public static Optional<DisplayFact> of(String key) {
    return Arrays.stream(values()).filter(fact -> fact.key.equals(key)).findFirst();
  }
}
