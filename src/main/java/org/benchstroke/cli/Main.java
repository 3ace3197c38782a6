package org.benchstroke.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/** The command line's entry. */
@Command(
    name = "benchstroke",
    description = {
      "Proves a motorised valve actuator on the bench: steps a signal source through setpoints,"
          + " reads the position back, judges what it measured with its uncertainty, and leaves a"
          + " record and a report.",
      ""
    },
    synopsisSubcommandLabel = "COMMAND",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    subcommands = {
      DemoCommand.class,
      CheckCommand.class,
      RunCommand.class,
      ProbeCommand.class,
      DriveCommand.class,
      ScanCommand.class,
      FindMapCommand.class,
      SimulateCommand.class,
      PractiseCommand.class,
      PortsCommand.class,
      SchemaCommand.class,
      ReportCommand.class,
      JudgeCommand.class,
      VerifyCommand.class,
      AmendCommand.class,
      KeyCommand.class,
      ArchiveCommand.class,
      HistoryCommand.class,
      TrendCommand.class,
      YieldCommand.class,
      CausesCommand.class,
      CompareCommand.class,
      DueCommand.class,
      LookBackCommand.class,
      CapabilityCommand.class,
      GaugeCommand.class,
      GaugePlanCommand.class,
      BenchCheckCommand.class,
      AutoComplete.GenerateCompletion.class
    },
    footer = {
      "",
      "Start with:  benchstroke demo",
      "Exit codes:  0 passed, 1 judged and not passed, 2 the request was wrong,",
      "             3 the test could not be completed"
    })
public final class Main implements Runnable {
  private static final Pattern DECIMAL =
      Pattern.compile("[+-]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?");

  @CommandLine.Spec private CommandSpec spec;

  private final Input input;
  private final Function<BenchFile, BenchClock> clocks;
  private final KeyPlace keys;
  private final ShopPlace shop;

  private Main(Input input, Function<BenchFile, BenchClock> clocks, KeyPlace keys, ShopPlace shop) {
    this.input = input;
    this.clocks = clocks;
    this.keys = keys;
    this.shop = shop;
  }

  /** Runs the command and exits with its code. */
  public static void main(String[] args) {
    Outlet out = new Outlet(new FileOutputStream(FileDescriptor.out), "standard output");
    Outlet err = new Outlet(new FileOutputStream(FileDescriptor.err), "standard error");
    System.setOut(stream(out));
    System.setErr(stream(err));
    System.exit(execute(Input.standard(), KeyPlace.usual(), ShopPlace.usual(), out, err, args));
  }

  /** Runs the command, and is done when all that it printed is out, or can't get out any more. */
  static int execute(
      Input in, KeyPlace keys, ShopPlace shop, Outlet out, Outlet err, String... args) {
    OutletWriter outWriter = new OutletWriter(out);
    OutletWriter errWriter = new OutletWriter(err);
    CommandLine line = commandLine(in, GivenFiles::systemClockOf, keys, shop);
    int code = execute(line, outWriter, errWriter, args);
    outWriter.flush();
    awaitAll(out);
    if (out.failure().isPresent()) {
      errWriter.println(
          "Not all of the output was written: standard output: "
              + out.failure().get().getMessage());
      boolean lost = code == ExitCode.PASSED && !leavesMore(line);
      code = lost ? ExitCode.NOT_COMPLETED : code;
    }
    errWriter.flush();
    awaitAll(err);
    return code;
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
   * @param shop where its shop file is
   */
  static int execute(
      Input in,
      Function<BenchFile, BenchClock> clocks,
      KeyPlace keys,
      ShopPlace shop,
      PrintWriter out,
      PrintWriter err,
      String... args) {
    return execute(commandLine(in, clocks, keys, shop), out, err, args);
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

  /** All commands, as they are parsed; writes to the standard streams unless told otherwise. */
  static CommandLine commandLine(
      Input in, Function<BenchFile, BenchClock> clocks, KeyPlace keys, ShopPlace shop) {
    CommandLine line =
        new CommandLine(new Main(in, clocks, keys, shop))
            .setUsageHelpAutoWidth(true)
            // A serial number may begin with @: it names no file of arguments.
            .setExpandAtFiles(false)
            .setCaseInsensitiveEnumValuesAllowed(true)
            .setExecutionExceptionHandler(Main::told)
            .setParameterExceptionHandler(Main::toldShortly);
    line.registerConverter(String.class, Main::readable);
    line.registerConverter(int.class, text -> number(text, Integer::valueOf, "a whole number"));
    line.registerConverter(Integer.class, text -> number(text, Integer::valueOf, "a whole number"));
    line.registerConverter(Long.class, text -> number(text, Long::valueOf, "a whole number"));
    line.registerConverter(double.class, text -> number(text, Main::decimal, "a number"));
    line.registerConverter(Double.class, text -> number(text, Main::decimal, "a number"));
    line.getSubcommands()
        .get("generate-completion")
        .getCommandSpec()
        .usageMessage()
        .description("Prints a script that lets bash and zsh complete commands and options.");
    return line;
  }

  Input input() {
    return input;
  }

  /** The clock by which a command goes on a bench. */
  static BenchClock clockOf(CommandSpec spec, BenchFile bench) {
    return clocks(spec).apply(bench);
  }

  static Function<BenchFile, BenchClock> clocks(CommandSpec spec) {
    return ((Main) spec.root().userObject()).clocks;
  }

  KeyPlace keys() {
    return keys;
  }

  ShopPlace shop() {
    return shop;
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  /** A serial number or a name with a control character in it would not be what it looks like. */
  private static String readable(String text) {
    if (text.chars().anyMatch(Character::isISOControl) || !Visible.of(text).equals(text)) {
      throw new CommandLine.TypeConversionException(
          "found \""
              + text.replace("\n", "\\n")
              + "\", allowed is text without control characters");
    }
    return text;
  }

  private static <T> T number(String text, Function<String, T> read, String allowed) {
    try {
      return read.apply(text);
    } catch (NumberFormatException e) {
      throw new CommandLine.TypeConversionException(
          "found \"" + text + "\", allowed is " + allowed);
    }
  }

  /** A number as people write it: not Java's own "7d", "0x1p3", "NaN" or "Infinity". */
  private static double decimal(String text) {
    double value = DECIMAL.matcher(text).matches() ? Double.parseDouble(text) : Double.NaN;
    if (!Double.isFinite(value)) {
      throw new NumberFormatException();
    }
    return value + 0.0; // -0 is 0
  }

  /** Not all of the help: what was wrong must not scroll out of sight. */
  private static int toldShortly(CommandLine.ParameterException e, String[] args) {
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
  private static int told(Exception e, CommandLine command, CommandLine.ParseResult parsed) {
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
    err.println("This is a fault in the program; please report it with the command you gave.");
    return ExitCode.NOT_COMPLETED;
  }

  private static PrintStream stream(Outlet outlet) {
    return new PrintStream(outlet, true, Terminals.charset());
  }
}
