package org.benchstroke.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import picocli.CommandLine;

/** The command line for tests outside its package. */
public final class CommandLines {
  private CommandLines() {}

  /** All commands, to parse with. */
  public static CommandLine all() {
    return Main.commandLine(Command.NO_INPUT);
  }

  /**
   * What a command did.
   *
   * @param code its exit code
   * @param text what it printed, errors last
   */
  public record Done(int code, String text) {}

  /** Carries a command out. */
  public static Done execute(String... arguments) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code =
        Main.execute(
            Command.NO_INPUT, new PrintWriter(out, true), new PrintWriter(err, true), arguments);
    return new Done(code, out.toString() + err);
  }
}
