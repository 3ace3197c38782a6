package org.benchstroke.cli;

import org.benchstroke.app.GivenFiles;
import picocli.CommandLine;

/** The command line for tests outside its package. */
public final class CommandLines {
  private CommandLines() {}

  /** All commands, to parse with. */
  public static CommandLine all() {
    return CommandTree.whole(
        new Root(Command.NO_INPUT, GivenFiles::systemClockOf, Command.KEYS, Surroundings.NONE));
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
    Command done = Command.run((Object[]) arguments);
    return new Done(done.code(), done.out() + done.err());
  }
}
