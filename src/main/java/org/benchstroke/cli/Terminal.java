package org.benchstroke.cli;

import java.util.Optional;

/** Whether a person's terminal is there, for a live line. Stateless. */
final class Terminal {
  private Terminal() {}

  static boolean isThere() {
    return Optional.ofNullable(System.console()).isPresent()
        && !"dumb".equals(System.getenv("TERM"));
  }
}
