package org.benchstroke.setup;

import java.util.Arrays;
import java.util.Optional;

/** What became of a step. */
public enum Outcome {
  DONE("done"),
  SKIPPED("skipped"),
  CAME_SET_UP("came set up");

  private final String key;

  Outcome(String key) {
    this.key = key;
  }

  /** As it stands in a record. */
  public String key() {
    return key;
  }

  /** The one with this key. */
  public static Optional<Outcome> of(String key) {
    return Arrays.stream(values()).filter(each -> each.key.equals(key)).findFirst();
  }
}
