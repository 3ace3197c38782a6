package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Runs a procedure on a unit. */
@Command(
    name = "run",
    description = {
      "Tests a unit, judges it, and writes its record and report.",
      "",
      "The unit moves. Cautions are shown first and want a yes. Ctrl-C stops the run and puts the"
          + " unit's safe signal on its input; it is not an emergency stop.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke run --bench bench.toml --unit-type unit.toml \\",
      "      --procedure acceptance.toml --serial QT-0042 \\",
      "      --operator Ann --order 4711"
    })
final class RunCommand implements Callable<Integer>, LeavesMore {
  @Option(names = "--bench", required = true, paramLabel = "FILE", description = "The bench file.")
  private Path bench;

  @Option(
      names = "--unit-type",
      required = true,
      paramLabel = "FILE",
      description = "The unit type file.")
  private Path unitType;

  @Option(
      names = "--procedure",
      required = true,
      paramLabel = "FILE",
      description = "The procedure file.")
  private Path procedure;

  @Option(
      names = "--serial",
      required = true,
      paramLabel = "TEXT",
      description = "Serial number of the unit.")
  private String serial;

  @Option(
      names = "--operator",
      required = true,
      paramLabel = "NAME",
      description = "Who runs the test.")
  private String operator;

  @Option(
      names = "--order",
      required = true,
      paramLabel = "TEXT",
      description = "The customer's order.")
  private String order;

  @Mixin private JobOptions job;

  @Option(
      names = "--records",
      paramLabel = "DIR",
      defaultValue = "records",
      description = "Where records and reports go (default: ${DEFAULT-VALUE}).")
  private Path records;

  @Mixin private CaptureFolder capture;

  @Option(
      names = "--seen-to",
      paramLabel = "RECORD",
      description =
          "Says that you saw to the unit of an interrupted run: noted beside its record, and not"
              + " told again.")
  private Optional<Path> seenTo;

  @Option(
      names = "--unattended",
      description = "Answers the cautions itself; on a simulated bench only.")
  private boolean unattended;

  @Option(names = "--json", description = "Prints the result as JSON, and nothing else.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    TestSession.Request request =
        new TestSession.Request(
            bench,
            unitType,
            procedure,
            serial,
            operator,
            order,
            records,
            capture.folder(),
            unattended,
            seenTo,
            json,
            job.job());
    return new TestSession(spec).carryOut(request);
  }
}
