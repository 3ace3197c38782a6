package org.benchstroke.cli;

import java.io.Console;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;

/** What is known of the terminal. Stateless. */
final class Terminal {
  private Terminal() {}

  /** Whether a person's terminal is there, for a live line. */
  static boolean isThere() {
    return console().isPresent() && !"dumb".equals(System.getenv("TERM"));
  }

  /** Ends the line of a question that was answered: a terminal did so itself, a pipe did not. */
  static void endAnswer(PrintWriter out) {
    if (console().isEmpty()) {
      out.println();
    }
  }

  /**
   * What the output is written in: UTF-8, but on a Windows console its own code page. A character
   * that it lacks becomes a question mark; every symbol stands beside its word.
   */
  static Charset charset() {
    boolean windows =
        System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
    return console().filter(c -> windows).map(Console::charset).orElse(StandardCharsets.UTF_8);
  }

  private static Optional<Console> console() {
    return Optional.ofNullable(System.console());
  }
}
