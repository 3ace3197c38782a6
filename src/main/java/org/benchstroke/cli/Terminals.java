package org.benchstroke.cli;

import java.io.Console;
import java.io.IOException;
import java.lang.reflect.InvocationTargetException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Optional;
import org.jline.terminal.TerminalBuilder;
import org.jline.terminal.spi.SystemStream;
import org.jline.terminal.spi.TerminalProvider;

/** What the standard streams are joined to. Stateless. */
final class Terminals {
  private Terminals() {}

  /** Whether a person's terminal is there, for input and for a live line. */
  static boolean isThere() {
    return console().isPresent() && !"dumb".equals(System.getenv("TERM"));
  }

  /** Whether standard input is a terminal, and no file and no pipe. */
  static boolean isInput() {
    if (console().isPresent()) {
      return true;
    }
    try {
      TerminalProvider provider = TerminalProvider.load(TerminalBuilder.PROP_PROVIDER_EXEC);
      return provider.isSystemStream(SystemStream.Input);
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * What the output is written in: UTF-8, but on a Windows console its own code page. A character
   * that it lacks becomes a question mark; every symbol stands beside its word.
   */
  static Charset charset() {
    boolean windows =
        System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
    if (!windows) {
      return StandardCharsets.UTF_8; // the console is not even asked for: that takes its time
    }
    return console().map(Console::charset).orElse(StandardCharsets.UTF_8);
  }

  /** A line that is typed unseen; empty if nothing is, or there is no terminal that can hide it. */
  static Optional<String> secret(String question) {
    return console()
        .map(console -> console.readPassword("%s", question))
        .map(String::new)
        .filter(typed -> !typed.isEmpty());
  }

  /** From Java 22 on there is a console without a terminal, too, and it can be asked. */
  private static Optional<Console> console() {
    return Optional.ofNullable(System.console()).filter(Terminals::isTerminal);
  }

  private static boolean isTerminal(Console console) {
    try {
      return (boolean) Console.class.getMethod("isTerminal").invoke(console);
    } catch (NoSuchMethodException e) {
      return true;
    } catch (IllegalAccessException | InvocationTargetException e) {
      return false;
    }
  }
}
