package org.benchstroke.cli;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.TomlDocument;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.LinkException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Serves a simulated bench. */
@Command(
    name = "simulate",
    description = {
      "Serves a simulated bench until Ctrl-C.",
      "Its instruments speak SCPI and Modbus TCP on this machine; the bench file that fits them is"
          + " written first: of one given with --bench, only the addresses and the [simulation]"
          + " table differ."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Examples:",
      "  benchstroke simulate --list",
      "  benchstroke simulate simulators/span-error.toml --time-scale 20",
      "  benchstroke simulate simulators/healthy-b.toml --bench my-bench.toml",
      "  benchstroke simulate simulators/healthy-b.toml --bench my-bench.toml --serial rs485=far,near"
    })
final class SimulateCommand implements Callable<Integer> {
  private static final Path COLLECTION = Path.of("simulators");

  @Parameters(
      paramLabel = "FILE",
      arity = "0..1",
      description = "The simulation file, see simulators/; with --list a folder of them.")
  private Optional<Path> file;

  @Option(
      names = "--list",
      description = "Lists the simulation files of a folder and what they show (simulators/).")
  private boolean list;

  @Option(
      names = "--bench",
      paramLabel = "BENCHFILE",
      description = {
        "Plays the instruments of this bench file: its languages, register maps, serial numbers",
        "and accuracies (default: a built-in bench). The file itself is left alone."
      })
  private Optional<Path> played;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      defaultValue = "1",
      description = "Bench seconds per second of the wall, 0.1 to 100 (default: 1, real time).")
  private double timeScale;

  @Option(
      names = "--bench-file",
      paramLabel = "FILE",
      defaultValue = "records/simulated-bench.toml",
      description = "Where to write the bench file (default: ${DEFAULT-VALUE}).")
  private Path benchFile;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "0",
      description = "First of the TCP ports in a row, one for each address (default: any free).")
  private int firstPort;

  @Option(
      names = "--serial",
      paramLabel = "LINE=PORT[,NEAR]",
      description = {
        "Plays this [[line]] of --bench on a serial port instead of on TCP, at the line's own speed.",
        "PORT is the simulator's end, such as one of a pair of pseudo-terminals; NEAR is the other",
        "one, which the written bench file then names (default: what BENCHFILE names). Repeatable."
      })
  private List<String> serial = List.of();

  @Option(
      names = "--turn-round-ms",
      paramLabel = "N",
      defaultValue = "0",
      description =
          "How long an instrument on --serial thinks before it answers, 0 to 1000 (default: 0 ms).")
  private double turnRoundMillis;

  @Option(
      names = "--truth",
      paramLabel = "FILE",
      description = {
        "Writes what a perfect test of the unit would report, as JSON: errors, dead band,",
        "resolution, times, switch angles (default: not written)."
      })
  private Optional<Path> truth;

  @Option(
      names = "--calibrate",
      description =
          "Lets the unit calibrate itself first, with its supply on, and says how that went.")
  private boolean calibrate;

  @Option(names = "--json", description = "Prints the addresses and the bench file as JSON.")
  private boolean json;

  @Option(names = "--until-input-ends", hidden = true)
  private boolean untilInputEnds;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    PrintWriter out = spec.commandLine().getOut();
    if (list) {
      new SimulationList(out).tell(file.orElse(COLLECTION));
      return ExitCode.PASSED;
    }
    if (file.isEmpty()) {
      throw new WrongRequest("which unit? name a simulation file; simulate --list shows them");
    }
    if (!(timeScale >= 0.1 && timeScale <= 100.0)) {
      throw new WrongRequest("--time-scale: found " + timeScale + ", allowed is 0.1 to 100");
    }
    if (firstPort < 0 || firstPort > 65533) {
      throw new WrongRequest("--port: found " + firstPort + ", allowed is 0 to 65533");
    }
    if (!(turnRoundMillis >= 0 && turnRoundMillis <= 1000)) {
      throw new WrongRequest(
          "--turn-round-ms: found " + turnRoundMillis + ", allowed is 0 to 1000");
    }
    Simulation simulation = SimulationReader.read(file.get());
    SimulatedBench bench = bench(simulation);
    Optional<SimulatedBench.Calibrated> calibrated =
        calibrate ? Optional.of(bench.calibrateUnit()) : Optional.empty();
    writeTruth(bench);
    try (SimulatorServer server = serve(bench)) {
      writeBenchFile(server);
      tell(out, bench, server, calibrated);
      waitForTheEnd(out, bench, server);
    }
    return ExitCode.PASSED;
  }

  private SimulatedBench bench(Simulation simulation) throws FileMistakes, WrongRequest {
    if (played.isEmpty()) {
      return SimulatedBench.builtIn(simulation);
    }
    Path given = played.get();
    if (Files.exists(given) && Files.exists(benchFile) && sameFile(given)) {
      throw new WrongRequest("--bench-file: would overwrite " + given + "; name another file");
    }
    return SimulatedBench.around(simulation, given.toString(), TomlDocument.textOf(given));
  }

  private boolean sameFile(Path given) throws WrongRequest {
    try {
      return Files.isSameFile(given, benchFile);
    } catch (IOException e) {
      throw new WrongRequest("--bench-file: " + benchFile + " can't be looked at");
    }
  }

  private void writeTruth(SimulatedBench bench) throws WrongRequest {
    if (truth.isEmpty()) {
      return;
    }
    try {
      String name = bench.simulation().name();
      RecordFiles.write(truth.get(), TruthFile.text(name, bench.unitTruth()));
    } catch (IOException e) {
      throw WrongRequest.unwritable(truth.get(), e);
    }
  }

  private void writeBenchFile(SimulatorServer server) throws WrongRequest {
    try {
      RecordFiles.write(benchFile, server.benchToml());
    } catch (IOException e) {
      throw WrongRequest.unwritable(benchFile, e);
    }
  }

  private SimulatorServer serve(SimulatedBench bench) throws WrongRequest {
    Map<Endpoint, Integer> ports = new HashMap<>();
    if (firstPort > 0) {
      int next = firstPort;
      for (Endpoint written : bench.ports().keySet()) {
        ports.put(written, next++);
      }
    }
    long turnRoundNanos = Math.round(turnRoundMillis * 1e6);
    List<SerialPlace> places = new SerialOption(bench).places(serial);
    try {
      return SimulatorServer.start(
          bench, SystemClock.scaled(timeScale), ports, places, turnRoundNanos);
    } catch (LinkException e) {
      throw new WrongRequest("--serial: " + e.getMessage());
    } catch (IOException e) {
      throw new WrongRequest("--port: " + e.getMessage());
    }
  }

  private void tell(
      PrintWriter out,
      SimulatedBench bench,
      SimulatorServer server,
      Optional<SimulatedBench.Calibrated> calibrated)
      throws IOException {
    Simulation simulation = bench.simulation();
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("simulation", simulation.name());
      server
          .reached()
          .forEach((written, address) -> told.put(bench.ports().get(written), address.text()));
      calibrated.ifPresent(
          c -> told.put("calibration", Map.of("succeeded", c.succeeded(), "seconds", c.seconds())));
      told.put("benchFile", benchFile.toString());
      told.put("bench", server.benchToml());
      out.println(new ObjectMapper().writeValueAsString(told));
      out.flush();
      return;
    }
    out.println("SIMULATED bench: " + simulation.name());
    out.println(simulation.shows());
    out.println();
    server
        .reached()
        .forEach(
            (written, address) ->
                out.printf("  %-34s %s%n", bench.ports().get(written), address.text()));
    out.printf("  %-34s %s × real time%n", "time", Numbers.plain(timeScale));
    calibrated.ifPresent(c -> out.printf("  %-34s %s%n", "the unit's own calibration", text(c)));
    out.println();
    out.println("Bench file:  " + benchFile);
    out.println("Unit type:   " + simulation.unitTypeFile());
    out.println();
    out.println("In another terminal:");
    out.println(
        Invocation.program()
            + (bench.switchedByHand() ? " run --bench " : " run --unattended --bench ")
            + benchFile
            + " --unit-type "
            + simulation.unitTypeFile()
            + " --procedure demo-data/procedures/short-acceptance.toml"
            + " --serial SIM-1 --operator me --order none");
    out.println();
    if (bench.switchedByHand()) {
      out.println("This bench has no relay: Enter switches the motor supply, which is off now.");
    }
    out.println("Ctrl-C stops it.");
    out.flush();
  }

  private static String text(SimulatedBench.Calibrated calibrated) {
    String time = Numbers.fixed(calibrated.seconds(), 1) + " s";
    return calibrated.succeeded()
        ? "found its span in " + time
        : "found no span in " + time + " and keeps its former one";
  }

  /** Until the program is killed, or the parent that started it is gone. */
  private void waitForTheEnd(PrintWriter out, SimulatedBench bench, SimulatorServer server)
      throws InterruptedException {
    if (bench.switchedByHand() || untilInputEnds) {
      Keys keys = new Keys(System.in);
      Optional<String> line = keys.poll();
      while (line.isEmpty() || !Keys.isEnd(line.get())) {
        if (line.isPresent() && bench.switchedByHand()) {
          out.println("Motor supply " + (server.turnMotorSupply() ? "ON" : "off"));
          out.flush();
        }
        line = keys.poll();
      }
    }
    if (!untilInputEnds) {
      new CountDownLatch(1).await();
    }
  }
}
