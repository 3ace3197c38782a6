package org.benchstroke.cli;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.commission.HandDrive;
import org.benchstroke.commission.HandOrder;
import org.benchstroke.commission.HandResult;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Sets a current by hand. */
@Command(
    name = "drive",
    description = {
      Commands.DRIVE,
      "",
      "The unit moves. Cautions are shown first and need a yes. The current stays within the unit's"
          + " signal range and the currents of its signal loss, and within the source's own range."
          + " Every way out puts the unit's safe signal on its input and switches the motor power"
          + " relay off; it is not an emergency stop. No figures are taken and no record is"
          + " written: to test, use run.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Type and Enter:  12.5    a current in mA       50%%     a position",
      "                 + -     a step of the current step 1%%      the size of a step",
      "                 safe    the safe signal       q       the end",
      "",
      "Exit codes: 0 ended as asked, with the safe signal confirmed;",
      "            2 a mistake in a file, or the bench is in use; 3 anything else.",
      "",
      "Example:",
      "  benchstroke drive --bench bench.toml --unit-type unit.toml --step 0.1"
    })
final class DriveCommand implements Callable<Integer>, LeavesMore {
  @Mixin private HandOptions given;

  @Option(
      names = "--step",
      paramLabel = "SIZE",
      defaultValue = "1%",
      description = "The step of + and -, in mA or in %% of travel (default: 1 %% of travel).")
  private String step;

  @Mixin private CaptureFolder capture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Input in = Input.of(spec);
    HandOptions.Files files = given.read(spec);
    GivenFiles.Given<BenchFile> file = files.bench();
    GivenFiles.Given<UnitType> unit = files.unit();
    requirePorts(file);
    given.requireAllowed(in, file);
    OptionalDouble milliamps = HandOrder.stepMilliamps(step, unit.value().signal());
    if (milliamps.isEmpty()) {
      throw new WrongRequest("--step: found " + step + ", allowed is a size such as 0.1 or 1%");
    }
    Shown out = Shown.out(spec);
    StopSwitch stop = new StopSwitch();
    Shown err = Shown.err(spec);
    BenchLinks.Wanted wantedLinks = BenchLinks.Wanted.of(file.value(), "a drive by hand");
    try (StopHook hook = StopHook.set(stop, out, err);
        BenchLinks links = capture.links(wantedLinks, err);
        HandWork work =
            given.unattended()
                ? HandWork.unattended(in, out, stop)
                : HandWork.attended(in, out, stop, hook)) {
      BenchClock clock = Root.of(spec).clocks().apply(file.value());
      DriveScreen screen = new DriveScreen(out, Terminals.isThere(), clock, work::columns);
      HandResult result =
          new HandDrive(
                  work.bench(file.value(), unit.value(), links.opener(), clock),
                  () -> typed(work.keys(), screen),
                  screen,
                  milliamps.getAsDouble())
              .drive();
      work.tellEnd(result);
      return result.clean() ? ExitCode.PASSED : ExitCode.NOT_COMPLETED;
    }
  }

  private static void requirePorts(GivenFiles.Given<BenchFile> given) throws WrongRequest {
    for (Role role : List.of(Role.SIGNAL_SOURCE, Role.POSITION_TRANSMITTER)) {
      if (given.value().playing(role).map(InstrumentSpec::typedIn).orElse(false)) {
        throw new WrongRequest(
            given.path() + ": the " + role.key() + " is \"typed in\"; drive needs one with a port");
      }
    }
  }

  private static Optional<String> typed(Keys keys, DriveScreen screen) {
    Optional<String> line = keys.poll();
    if (line.isPresent()) {
      screen.typed();
    }
    return line.map(text -> Keys.isEnd(text) ? "q" : text);
  }
}
