package org.benchstroke.cli;

import java.io.Console;

/** Whether a person's terminal is there, for a live line. Stateless. */
final class Terminal {
  private Terminal() {}

  static boolean isThere() {
    Console console = System.console();
    return console != null && !"dumb".equals(System.getenv("TERM"));
  }
}
