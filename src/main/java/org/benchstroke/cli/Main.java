package org.benchstroke.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.util.List;
import java.util.function.Function;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;
import picocli.CommandLine;

/** The command line's entry. */
public final class Main {
  private Main() {}

  /** Runs the command and exits with its code. */
  public static void main(String[] args) {
    Outlet out = new Outlet(new FileOutputStream(FileDescriptor.out), "standard output");
    Outlet err = new Outlet(new FileOutputStream(FileDescriptor.err), "standard error");
    System.setOut(stream(out));
    System.setErr(stream(err));
    System.exit(
        Version.isAllThatIsAsked(args)
            ? told(out, err)
            : execute(Input.standard(), Surroundings.usual(), out, err, args));
  }

  /** Prints the version: nothing is made for it that a command needs. */
  private static int told(Outlet out, Outlet err) {
    OutletWriter writer = new OutletWriter(out);
    for (String line : Version.lines()) {
      writer.println(line);
    }
    return ended(out, writer, err, new OutletWriter(err), ExitCode.PASSED, false);
  }

  /** Runs the command, and is done when all that it printed is out, or can't get out any more. */
  static int execute(Input in, Surroundings around, Outlet out, Outlet err, String... args) {
    return execute(in, KeyPlace.of(around), around, out, err, args);
  }

  /** Likewise, with the key of another place. */
  static int execute(
      Input in, KeyPlace keys, Surroundings around, Outlet out, Outlet err, String... args) {
    OutletWriter outWriter = new OutletWriter(out);
    OutletWriter errWriter = new OutletWriter(err);
    Root root = new Root(in, GivenFiles::systemClockOf, keys, around);
    CommandLine line = CommandTree.asked(root, List.of(args));
    int code = execute(line, outWriter, errWriter, args);
    return ended(out, outWriter, err, errWriter, code, leavesMore(line));
  }

  /**
   * Waits until all is out.
   *
   * @param more whether the command did more than print
   * @return its exit code, by what became of its output
   */
  private static int ended(
      Outlet out,
      PrintWriter outWriter,
      Outlet err,
      PrintWriter errWriter,
      int code,
      boolean more) {
    outWriter.flush();
    awaitAll(out);
    boolean lost = out.failure().isPresent();
    if (lost) {
      errWriter.println(
          "Not all of the output was written: standard output: "
              + out.failure().get().getMessage());
    }
    errWriter.flush();
    awaitAll(err);
    return lost && code == ExitCode.PASSED && !more ? ExitCode.NOT_COMPLETED : code;
  }

  /** Whether what was asked for was more than what it prints. */
  private static boolean leavesMore(CommandLine line) {
    CommandLine.ParseResult parsed = line.getParseResult();
    while (parsed.hasSubcommand()) {
      parsed = parsed.subcommand();
    }
    boolean told = parsed.isUsageHelpRequested() || parsed.isVersionHelpRequested();
    return !told && parsed.commandSpec().userObject() instanceof LeavesMore;
  }

  private static void awaitAll(Outlet outlet) {
    try {
      outlet.drain(Long.MAX_VALUE);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * Runs the command for tests.
   *
   * @param clocks gives the clock of a bench
   * @param keys where its key is
   * @param around what is stated around it
   */
  static int execute(
      Input in,
      Function<BenchFile, BenchClock> clocks,
      KeyPlace keys,
      Surroundings around,
      PrintWriter out,
      PrintWriter err,
      String... args) {
    Root root = new Root(in, clocks, keys, around);
    return execute(CommandTree.asked(root, List.of(args)), out, err, args);
  }

  private static int execute(CommandLine line, PrintWriter out, PrintWriter err, String... args) {
    try {
      return line.setOut(out).setErr(err).execute(args);
    } catch (Error e) {
      err.println(overcome(e));
      return ExitCode.NOT_COMPLETED;
    }
  }

  /** An error of Java itself, in a line: left alone it would end with 1, as a judged run does. */
  static String overcome(Error e) {
    if (e instanceof OutOfMemoryError) {
      return "Out of memory: give Java more of it (java -Xmx4g -jar ...), or a smaller file.";
    }
    String what = e instanceof StackOverflowError ? "something is nested too deep" : e.toString();
    return "benchstroke failed: "
        + what.lines().findFirst().orElse("")
        + ". This is a fault in the program; please report it with the command you gave.";
  }

  private static PrintStream stream(Outlet outlet) {
    return new PrintStream(outlet, true, Terminals.charset());
  }
}
