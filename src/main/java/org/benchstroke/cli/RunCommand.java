package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.RunRequest;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.simulator.SimulationReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Runs a procedure on a unit. */
@Command(
    name = "run",
    description = {
      Commands.RUN,
      "",
      "With --simulation nothing is connected: a simulated unit is tested in this program, in"
          + " seconds, and the record says so.",
      "",
      "The unit moves. Cautions are shown first and need a yes. Ctrl-C stops the run and puts the"
          + " unit's safe signal on its input; it is not an emergency stop.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Examples:",
      "  benchstroke run --bench bench.toml --unit-type unit.toml \\",
      "      --procedure acceptance.toml --serial QT-0042 \\",
      "      --operator Ann --order 4711",
      "  benchstroke run -s QT-0042                      # what is stated need not be typed",
      "  benchstroke run --simulation simulators/span-error.toml --unattended \\",
      "      --procedure acceptance.toml --serial SIM-1 --operator me --order none"
    })
final class RunCommand implements Callable<Integer>, LeavesMore {
  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description =
          "The bench file; with --simulation, the one whose instruments are played (default then: a"
              + " built-in bench, else what is stated).")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description =
          "The unit type file (default: with --simulation the one that the simulation names, else"
              + " what is stated).")
  private Optional<String> unitType = Optional.empty();

  @Option(
      names = "--simulation",
      paramLabel = "FILE",
      description = "Tests the unit of this simulation file, with nothing connected.")
  private Optional<Path> simulation;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      description =
          "With --simulation: shows it at this many bench seconds per second of real time, 0.1 to"
              + " 100 (default: as fast as it goes).")
  private Double timeScale;

  @Option(
      names = "--procedure",
      paramLabel = "FILE",
      description =
          "The procedure file (default: the one that the unit type names, else what is stated).")
  private Optional<String> procedure = Optional.empty();

  @Option(
      names = {"-s", "--serial"},
      paramLabel = "TEXT",
      description = "Serial number of the unit; asked for at a terminal, for a scanner too.")
  private Optional<String> serial;

  @Option(
      names = "--operator",
      paramLabel = "NAME",
      description = "Who runs the test; asked for at a terminal.")
  private Optional<String> operator;

  @Option(
      names = "--order",
      paramLabel = "TEXT",
      description = "The customer's order; asked for at a terminal.")
  private Optional<String> order;

  @Option(
      names = "--supervisor",
      paramLabel = "NAME",
      description =
          "Who allows a further attempt at a unit that has had five at this order; asked for at a"
              + " terminal.")
  private Optional<String> supervisor;

  @Mixin private ShopOption shop;

  @Mixin private JobOptions job;

  @Mixin private CaptureFolder capture;

  @Option(
      names = "--seen-to",
      paramLabel = "RECORD",
      description =
          "Says that you have seen to the unit of an interrupted run: this is noted beside its"
              + " record, and the warning is not repeated.")
  private Optional<Path> seenTo;

  @Option(
      names = "--resume",
      paramLabel = "RECORD",
      description =
          "Goes on with an interrupted run, at the end of its last whole test: whole tests are not"
              + " run again. All else must be as it was.")
  private Optional<Path> resume;

  @Option(
      names = "--unattended",
      description = "Answers the cautions itself; on a simulated bench only.")
  private boolean unattended;

  @Option(names = "--json", description = "Prints the result as JSON, and nothing else.")
  private boolean json;

  @Mixin private RecordsOption records;

  @Mixin private ArchiveOption archive;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Defaults stated = shop.read(spec);
    requireTimeScale();
    // Of a simulated unit its own file says what it is and what stands around it.
    Optional<Path> benchFile = file(stated, Setting.BENCH, bench);
    Optional<Path> typeFile = file(stated, Setting.UNIT_TYPE, unitType);
    if (simulation.isEmpty() && (benchFile.isEmpty() || typeFile.isEmpty())) {
      throw NeededFile.missing(
          spec, "'--bench=FILE' and '--unit-type=FILE', or '--simulation=FILE'");
    }
    Path tests =
        stated
            .procedure(procedure, typeFile.isPresent() ? typeFile : typeOfSimulation())
            .orElseThrow(() -> NeededFile.missing(spec, "'--procedure=FILE'"));
    if (resume.isPresent()) {
      Event.Opened then = RecordHeading.read(resume.get()).opened();
      serial = serial.or(() -> Optional.of(then.serial()));
      order = order.or(() -> Optional.of(then.order()));
    }
    AskedFor asked = new AskedFor(spec, json, !unattended);
    String unit = asked.words("--serial", serial, "Serial number of the unit (scan or type): ");
    String job = asked.order(order, unit);
    String person = asked.operator(operator, stated);
    RunRequest request =
        new RunRequest(
            simulation,
            benchFile,
            typeFile,
            tests,
            unit,
            person,
            job,
            this.job.job(),
            supervisor,
            stated.shop(),
            resume,
            records.folder(stated),
            capture.folder(),
            timeScale == null ? OptionalDouble.empty() : OptionalDouble.of(timeScale));
    return new TerminalRun(
            spec, request, archive.ifAny(records.folder(stated), stated), unattended, json)
        .carryOut(seenTo);
  }

  private void requireTimeScale() throws WrongRequest {
    if (timeScale != null) {
      if (simulation.isEmpty()) {
        throw new WrongRequest("--time-scale: goes with --simulation; a bench has its own time");
      }
      SimulateCommand.requireTimeScale(timeScale);
    }
  }

  /** What is stated is of the shop's bench, and counts for no simulation. */
  private Optional<Path> file(Defaults stated, Setting setting, Optional<String> typed)
      throws WrongRequest {
    return simulation.isPresent() && typed.isEmpty()
        ? Optional.empty()
        : stated.file(setting, typed);
  }

  /** The unit type that a simulation names; its mistakes are told where all files are read. */
  private Optional<Path> typeOfSimulation() {
    try {
      return Optional.of(SimulationReader.read(simulation.orElseThrow()).unitTypeFile());
    } catch (FileMistakes e) {
      return Optional.empty();
    }
  }
}
