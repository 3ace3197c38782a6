package org.benchstroke.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.DemoFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The whole job on a simulated bench. */
@Command(
    name = "demo",
    description = {
      "Runs a short acceptance on a simulated bench; needs no hardware.",
      "The bench is served on real sockets of this machine. The exit code is that of the run."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example, a unit with a fault:", "  benchstroke demo simulators/span-error.toml"})
final class DemoCommand implements Callable<Integer>, LeavesMore {
  @Parameters(
      paramLabel = "FILE",
      arity = "0..1",
      description = "A simulation file (default: a healthy unit).")
  private Path simulation;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      defaultValue = "20",
      description = "Bench seconds per second of the wall (default: ${DEFAULT-VALUE}).")
  private double timeScale;

  @Option(
      names = "--records",
      paramLabel = "DIR",
      defaultValue = "records",
      description = "Where records and reports go (default: ${DEFAULT-VALUE}).")
  private Path records;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Shown out = Shown.out(spec);
    Path folder = records.resolve("demo");
    unpack(folder, out);
    Path file = simulation == null ? folder.resolve("simulators/healthy-b.toml") : simulation;
    Path bench = folder.resolve("simulated-bench.toml");
    Path unit = folder.resolve("demo-data/unit-types/quarter-turn-15s.toml");
    Path procedure = folder.resolve("demo-data/procedures/short-acceptance.toml");
    Process simulator = start(file, bench);
    try {
      out.println(
          "SIMULATED bench at "
              + Numbers.plain(timeScale)
              + " × real time: "
              + simulationName(simulator));
      int code =
          new TestSession(spec)
              .carryOut(
                  new TestSession.Request(
                      bench,
                      unit,
                      procedure,
                      "DEMO-0001",
                      "demo",
                      "demo",
                      records,
                      Optional.empty(),
                      true,
                      Optional.empty(),
                      false,
                      Optional.empty()));
      tellNext(out, folder);
      return code;
    } finally {
      // It heeds no gentler signal, and what it was for is done.
      simulator.destroyForcibly();
    }
  }

  /** Copies the demo's files into the folder, and tells of those that differ. */
  static void unpack(Path folder, Shown out) throws WrongRequest {
    for (Path kept : DemoFiles.unpack(folder)) {
      out.println(kept + " is not as it came with this program, and stays; delete it to get that.");
    }
  }

  private Process start(Path file, Path bench) throws IOException {
    return Invocation.again(
            List.of(
                "simulate",
                file.toString(),
                "--time-scale",
                Numbers.plain(timeScale),
                "--bench-file",
                bench.toString(),
                "--json",
                "--until-input-ends"))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  /** The simulator's first line says that it serves; without one it has told its mistake itself. */
  private static String simulationName(Process simulator) throws IOException, WrongRequest {
    BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(simulator.getInputStream(), StandardCharsets.UTF_8));
    Optional<String> line = Optional.ofNullable(reader.readLine());
    if (line.isEmpty()) {
      throw new WrongRequest("The simulated bench did not start; see above.");
    }
    try {
      return new ObjectMapper().readTree(line.get()).path("simulation").asText();
    } catch (JsonProcessingException e) {
      throw new IOException("the simulator answered \"" + line.get() + "\"", e);
    }
  }

  private static void tellNext(Shown out, Path folder) {
    String program = Invocation.program();
    out.println();
    out.println("Try next:");
    out.println("  open the report in a browser and print it");
    out.println("  a unit with a fault, or another one of that folder:");
    out.println("    " + program + " demo " + folder.resolve("simulators/slack-after-sensor.toml"));
    out.println("  " + program + " --help");
    out.flush();
  }
}
