package org.benchstroke.cli;

import java.io.IOException;
import java.io.PrintWriter;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine;

/** What went wrong, told to people. Stateless. */
final class Mistakes {
  private Mistakes() {}

  /** Not all of the help: what was wrong must not scroll out of sight. */
  static int toldShortly(CommandLine.ParameterException e, String[] args) {
    CommandLine command = e.getCommandLine();
    Shown err = Shown.on(command.getErr());
    err.println(e.getMessage());
    CommandLine.UnmatchedArgumentException.printSuggestions(e, err);
    PrintWriter synopsis = command.getErr();
    synopsis.print(command.getHelp().synopsisHeading());
    synopsis.print(command.getHelp().synopsis(command.getHelp().synopsisHeadingLength()));
    err.println("What they mean: " + command.getCommandSpec().qualifiedName() + " --help");
    return ExitCode.WRONG_REQUEST;
  }

  /** Everything a person did wrong is told in words; a stack trace never reaches anyone. */
  static int told(Exception e, CommandLine command, CommandLine.ParseResult parsed) {
    Shown err = Shown.on(command.getErr());
    if (e instanceof FileMistakes mistakes) {
      err.println(mistakes.getMessage());
      return ExitCode.WRONG_REQUEST;
    }
    if (e instanceof WrongRequest || e instanceof RecordReader.NotARecord) {
      err.println(e.getMessage());
      return ExitCode.WRONG_REQUEST;
    }
    if (e instanceof ArchiveFault fault) {
      err.println(fault.getMessage());
      return fault.kind() == ArchiveFault.Kind.WRONG_REQUEST
          ? ExitCode.WRONG_REQUEST
          : ExitCode.NOT_COMPLETED;
    }
    if (e instanceof IOException) {
      err.println("A file can't be read or written: " + e.getMessage());
      return ExitCode.NOT_COMPLETED;
    }
    err.println("benchstroke failed: " + e);
    err.println(
        "This is a fault in the program; please report it with the command you gave."
            + CrashFile.told(e));
    return ExitCode.NOT_COMPLETED;
  }
}
