package org.benchstroke.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.benchstroke.app.DemoFiles;
import org.benchstroke.app.RunRequest;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The whole job on a simulated bench. */
@Command(
    name = "demo",
    description = {Commands.DEMO, "The exit code is that of the run."},
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example, a unit with a fault:", "  benchstroke demo simulators/span-error.toml"})
final class DemoCommand implements Callable<Integer>, LeavesMore {
  private static final double PACE = 20.0;

  /** A busy machine still serves a bench at this pace. */
  private static final double PACE_OVER_SOCKETS = 5.0;

  private static final long ENDS_SECONDS = 2;

  @Parameters(
      paramLabel = "FILE",
      arity = "0..1",
      description = "A simulation file (default: a healthy unit).")
  private Optional<Path> simulation = Optional.empty();

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      description =
          "Bench seconds per second of real time, 0.1 to 100 (default: 20; 5 over sockets).")
  private Double timeScale;

  @Option(
      names = "--over-sockets",
      description =
          "Serves the bench on sockets of this machine, from a process of its own, like"
              + " instruments on a network.")
  private boolean overSockets;

  @Mixin private RecordsOption records;

  @Mixin private ArchiveOption archive;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    double scale = timeScale != null ? timeScale : overSockets ? PACE_OVER_SOCKETS : PACE;
    SimulateCommand.requireTimeScale(scale);
    Shown out = Shown.out(spec);
    Path folder = records.apart().resolve("demo");
    unpack(folder, out);
    Path file = simulation.orElseGet(() -> folder.resolve("simulators/healthy-b.toml"));
    Simulation unit = SimulationReader.read(file);
    out.println("SIMULATED bench at " + Numbers.plain(scale) + " × real time: " + unit.name());
    int code =
        overSockets ? overSockets(file, unit, folder, scale) : inProcess(file, folder, scale);
    tellNext(out, folder);
    return code;
  }

  private int inProcess(Path file, Path folder, double scale) throws Exception {
    Optional<Path> none = Optional.empty();
    return run(Optional.of(file), none, none, folder, OptionalDouble.of(scale));
  }

  private int overSockets(Path file, Simulation unit, Path folder, double scale) throws Exception {
    Path bench = folder.resolve("simulated-bench.toml");
    Process simulator = start(file, bench, scale);
    try {
      awaitServed(simulator);
      return run(
          Optional.empty(),
          Optional.of(bench),
          Optional.of(unit.unitTypeFile()),
          folder,
          OptionalDouble.empty());
    } finally {
      end(simulator);
    }
  }

  /** It ends with its input, and tidies up; what it was for is done, so nobody waits for long. */
  private static void end(Process simulator) throws IOException, InterruptedException {
    simulator.getOutputStream().close();
    if (!simulator.waitFor(ENDS_SECONDS, TimeUnit.SECONDS)) {
      simulator.destroyForcibly();
    }
  }

  private int run(
      Optional<Path> tested,
      Optional<Path> bench,
      Optional<Path> unitType,
      Path folder,
      OptionalDouble pace)
      throws Exception {
    RunRequest request =
        new RunRequest(
            tested,
            bench,
            unitType,
            folder.resolve("demo-data/procedures/short-acceptance.toml"),
            "DEMO-0001",
            "demo",
            "demo",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            records.apart(),
            Optional.empty(),
            pace);
    return new TerminalRun(spec, request, archive.apart(records.apart()), true, false)
        .carryOut(Optional.empty());
  }

  /** Copies the demo's files into the folder, and tells of those that differ. */
  static void unpack(Path folder, Shown out) throws WrongRequest {
    for (Path kept : DemoFiles.unpack(folder)) {
      out.println(kept + " was edited, so it is kept; delete it to get the original back.");
    }
  }

  private static Process start(Path file, Path bench, double scale) throws IOException {
    return Invocation.again(
            List.of(
                "simulate",
                file.toString(),
                "--time-scale",
                Numbers.plain(scale),
                "--bench-file",
                bench.toString(),
                "--json",
                "--until-input-ends"))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  /** The simulator's first line says that it serves; without one it has told its mistake itself. */
  private static void awaitServed(Process simulator) throws IOException, WrongRequest {
    Reader answers = new InputStreamReader(simulator.getInputStream(), StandardCharsets.UTF_8);
    if (new BufferedReader(answers).readLine() == null) {
      throw new WrongRequest("The simulated bench did not start; see above.");
    }
  }

  private static void tellNext(Shown out, Path folder) {
    String program = Invocation.program();
    out.println();
    out.println("Try next:");
    out.println("  open the report in a browser and print it");
    out.println("  a unit with a fault, or any other in that folder:");
    out.println("    " + program + " demo " + folder.resolve("simulators/slack-after-sensor.toml"));
    out.println("  " + program + " --help");
    out.flush();
  }
}
