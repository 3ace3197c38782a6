package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.SetUpRequest;
import org.benchstroke.app.Setting;
import org.benchstroke.app.SettingUp;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Sets a unit up before its test, step by step. */
@Command(
    name = "setup",
    description = {
      Commands.SETUP,
      "",
      "From mating to the unit's own calibration, each step with its caution, recorded with time and"
          + " figures, and skipped only with a reason. Where the bench reads switches and the stem's"
          + " angle, both are live while you turn. What was noted is found by the next run of that"
          + " order and serial number.",
      "",
      "The motor power is off until you let it on. Every way out puts the unit's safe signal on its"
          + " input and switches the motor power relay off; it is not an emergency stop.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Keys:  y    read, or done      move  let it move      b  its calibration begins",
      "       m    it clicked now     a     once more        s  skip, with a reason",
      "       c    it came set up     q     the end          h  simulated hands do it",
      "",
      "Exit codes: 0 set up; 1 set up, and something noted is not as ordered;",
      "            2 a mistake in a file, or the bench is in use; 3 not finished.",
      "",
      "Examples:",
      "  benchstroke setup --bench bench.toml --unit-type unit.toml \\",
      "      --serial QT-0042 --operator Ann --order 4711",
      "  benchstroke setup --simulation simulators/healthy-b.toml \\",
      "      --serial SIM-1 --operator me --order none"
    })
final class SetUpCommand implements Callable<Integer>, LeavesMore {
  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "The bench file; with --simulation, the one whose instruments are played.")
  private Optional<String> bench;

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description =
          "The unit type file (default with --simulation: the one that the simulation names).")
  private Optional<String> unitType;

  @Option(
      names = "--simulation",
      paramLabel = "FILE",
      description = "Sets up the unit of this simulation file, with nothing connected.")
  private Optional<Path> simulation;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      description =
          "With --simulation: bench seconds per second of real time, 0.1 to 100 (default: 1; with"
              + " --unattended as fast as it goes).")
  private Double timeScale;

  @Option(
      names = "--serial",
      paramLabel = "TEXT",
      description = "Serial number of the unit; asked for at a terminal, for a scanner too.")
  private Optional<String> serial;

  @Option(
      names = "--operator",
      paramLabel = "NAME",
      description = "Who sets it up; asked for at a terminal.")
  private Optional<String> operator;

  @Option(
      names = "--order",
      paramLabel = "TEXT",
      description = "The customer's order; asked for at a terminal.")
  private Optional<String> order;

  @Option(
      names = "--came-set-up",
      description = "Records that the unit came set up, and nothing else; no link is opened.")
  private boolean cameSetUp;

  @Mixin private ShopOption shop;

  @Mixin private CaptureFolder capture;

  @Option(
      names = "--unattended",
      description = "Simulated hands do all of it; with --simulation only.")
  private boolean unattended;

  @Mixin private RecordsOption records;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Defaults stated = shop.read(spec);
    requireAllowed();
    Optional<Path> benchFile = file(stated, Setting.BENCH, bench);
    Optional<Path> typeFile = file(stated, Setting.UNIT_TYPE, unitType);
    if (simulation.isEmpty() && (benchFile.isEmpty() || typeFile.isEmpty())) {
      throw NeededFile.missing(
          spec, "'--bench=FILE' and '--unit-type=FILE', or '--simulation=FILE'");
    }
    AskedFor asked = new AskedFor(spec, false, !unattended);
    String unit = asked.words("--serial", serial, "Serial number of the unit (scan or type): ");
    String job = asked.order(order, unit);
    String person = asked.operator(operator, stated);
    SetUpRequest request =
        new SetUpRequest(
            simulation,
            benchFile,
            typeFile,
            unit,
            person,
            job,
            records.folder(stated),
            capture.folder(),
            scale());
    SettingUp settingUp = SettingUp.of(request, Version.text());
    TerminalSetUp terminal = new TerminalSetUp(spec, settingUp, unattended);
    return cameSetUp ? terminal.cameSetUp() : terminal.carryOut();
  }

  /** What is stated is of the shop's bench, and counts for no simulation. */
  private Optional<Path> file(Defaults stated, Setting setting, Optional<String> typed)
      throws WrongRequest {
    return typed.isPresent() || simulation.isEmpty()
        ? stated.file(setting, typed)
        : Optional.empty();
  }

  private void requireAllowed() throws WrongRequest {
    if (timeScale != null) {
      if (simulation.isEmpty()) {
        throw new WrongRequest("--time-scale: goes with --simulation; a bench has its own time");
      }
      SimulateCommand.requireTimeScale(timeScale);
    }
    if (unattended && simulation.isEmpty()) {
      throw new WrongRequest(
          "--unattended: goes with --simulation; on any other bench a person's hands are needed");
    }
    if (!unattended && !cameSetUp) {
      Input.of(spec).requirePerson(simulation.isPresent());
    }
  }

  private OptionalDouble scale() {
    if (timeScale != null) {
      return OptionalDouble.of(timeScale);
    }
    return unattended ? OptionalDouble.empty() : OptionalDouble.of(1.0);
  }
}
