package org.benchstroke.io.instrument;

import java.util.Arrays;
import java.util.Optional;

/** The switches of a unit that a bench can watch. */
public enum LimitSwitch {
  CLOSED("closed"),
  OPEN("open"),
  CLOSED_AUXILIARY("closed-auxiliary"),
  OPEN_AUXILIARY("open-auxiliary");

  private final String key;

  LimitSwitch(String key) {
    this.key = key;
  }

  /** The word for it in files. */
  public String key() {
    return key;
  }

  public static Optional<LimitSwitch> ofKey(String key) {
    return Arrays.stream(values()).filter(s -> s.key.equals(key)).findFirst();
  }
}
