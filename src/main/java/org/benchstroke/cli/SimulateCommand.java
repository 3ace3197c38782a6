package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Session;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.jline.utils.Signals;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Serves simulated benches. */
@Command(
    name = "simulate",
    description = {
      Commands.SIMULATE,
      "Its instruments speak SCPI and Modbus TCP on this machine; the bench file that fits them is"
          + " written first. One given with --bench is copied, with only its addresses and its"
          + " [simulation] table changed.",
      "With several, each has its own unit, clock and link faults, and its own bench file:"
          + " simulated-bench-1.toml, -2, and so on."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Examples:",
      "  benchstroke simulate --list",
      "  benchstroke simulate simulators/span-error.toml --time-scale 20",
      "  benchstroke simulate simulators/healthy-b.toml simulators/span-error.toml",
      "  benchstroke simulate simulators/healthy-b.toml --stations 8 --port 6001",
      "  benchstroke simulate simulators/healthy-b.toml --bench my-bench.toml",
      "  benchstroke simulate simulators/healthy-b.toml --bench my-bench.toml \\",
      "      --serial rs485=far,near"
    })
final class SimulateCommand implements Callable<Integer>, LeavesMore {
  private static final Path COLLECTION = Path.of("simulators");
  private static final int MOST_REPEATS = 100;
  private static final int HIGHEST_PORT = 65_535;

  @Parameters(
      paramLabel = "FILE",
      arity = "0..*",
      description =
          "A simulation file, see simulators/; with --list a folder of them. Several files make"
              + " several stations. A file named again gets the next seed: another unit of its"
              + " kind, with other noise and other instruments.")
  private List<Path> files = List.of();

  @Option(
      names = "--list",
      description = "Lists the simulation files of a folder and what they show (simulators/).")
  private boolean list;

  @Option(
      names = "--stations",
      paramLabel = "N",
      defaultValue = "1",
      description = "Serves each FILE as this many stations, 1 to 100, each on the next seed.")
  private int repeats;

  @Option(
      names = "--bench",
      paramLabel = "BENCHFILE",
      description =
          "Plays the instruments of this bench file: its languages, register maps, serial numbers"
              + " and accuracies (default: a built-in bench). The file itself is left alone.")
  private Optional<Path> played;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      defaultValue = "1",
      description = "Bench seconds per second of real time, 0.1 to 100 (default: 1, real time).")
  private double timeScale;

  @Option(
      names = "--bench-file",
      paramLabel = "FILE",
      defaultValue = "records/simulated-bench.toml",
      description =
          "Where to write the bench file (default: ${DEFAULT-VALUE}). Several stations get one"
              + " each, numbered: -1, -2 and so on before the dot.")
  private Path benchFile;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "0",
      description =
          "First of the TCP ports in a row, one for each address, station after station (default:"
              + " any free).")
  private int firstPort;

  @Option(
      names = "--serial",
      paramLabel = "LINE=PORT[,NEAR]",
      description = {
        "Plays this [[line]] of --bench on a serial port instead of on TCP, at the line's own"
            + " speed.",
        "PORT is the simulator's end, such as one of a pair of pseudo-terminals; NEAR is the other"
            + " one, which the written bench file then names (default: what BENCHFILE names)."
            + " Repeatable.",
        "Several stations each have ports of their own: -1, -2 and so on are added to PORT and"
            + " NEAR, and NEAR is needed."
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
      description =
          "Writes what a perfect test of the unit would report, as JSON: errors, dead band,"
              + " resolution, times, switch angles (default: not written). Numbered like the"
              + " bench files.")
  private Optional<Path> truth;

  @Option(
      names = "--calibrate",
      description =
          "Lets the unit calibrate itself first, with its supply on, and says how that went.")
  private boolean calibrate;

  @Mixin private ForceOption force;

  @Option(
      names = "--json",
      description = "Prints the addresses and the bench file, or the list, as JSON.")
  private boolean json;

  @Option(names = "--until-input-ends", hidden = true)
  private boolean untilInputEnds;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Shown out = Shown.out(spec);
    if (list) {
      list(out);
      return ExitCode.PASSED;
    }
    if (untilInputEnds) {
      leaveSignalsToParent();
    }
    requireAllowed();
    List<Station> stations = stations(units());
    requirePorts(stations);
    OutputFiles outputs = given(stations);
    List<OutputFiles.Place> benches = new ArrayList<>();
    for (Station station : stations) {
      benches.add(
          outputs.place("--bench-file", station.benchFile(), OutputFiles.Kind.SIMULATED_BENCH));
    }
    writeTruths(stations, outputs);
    long turnRoundNanos = Math.round(turnRoundMillis * 1e6);
    try (ServedStations served =
        ServedStations.serve(stations, timeScale, turnRoundNanos, this::tellSlowed)) {
      for (int i = 0; i < benches.size(); i++) {
        benches.get(i).write(served.all().get(i).benchToml());
      }
      SimulateScreen screen = new SimulateScreen(out, timeScale);
      if (json) {
        screen.tellJson(served);
      } else {
        screen.tell(served);
      }
      waitForTheEnd(out, served);
    }
    return ExitCode.PASSED;
  }

  /** Whoever started this for a run of its own shows that run. */
  private void tellSlowed(String line) {
    if (!untilInputEnds) {
      Shown err = Shown.err(spec);
      err.println(line);
      err.flush();
    }
  }

  /**
   * A terminal sends Ctrl-C to both, and who ends a process group does likewise: the bench must
   * still be there while the run is made safe. It ends with the parent, whose end is the end of the
   * input.
   */
  private static void leaveSignalsToParent() {
    List.of("INT", "HUP", "TERM").forEach(signal -> Signals.register(signal, () -> {}));
  }

  private void list(Shown out) throws WrongRequest, IOException, FileMistakes {
    if (files.size() > 1) {
      throw new WrongRequest("--list: found " + files.size() + " folders, allowed is one");
    }
    new SimulationList(out, json).tell(files.isEmpty() ? COLLECTION : files.get(0));
  }

  private void requireAllowed() throws WrongRequest {
    if (files.isEmpty()) {
      throw new WrongRequest("which unit? name a simulation file; simulate --list shows them");
    }
    if (repeats < 1 || repeats > MOST_REPEATS) {
      throw new WrongRequest("--stations: found " + repeats + ", allowed is 1 to " + MOST_REPEATS);
    }
    requireTimeScale(timeScale);
    if (!(turnRoundMillis >= 0 && turnRoundMillis <= 1000)) {
      throw new WrongRequest(
          "--turn-round-ms: found " + Numbers.plain(turnRoundMillis) + ", allowed is 0 to 1000");
    }
  }

  /** Of a simulated bench, bench seconds per second of real time. */
  static void requireTimeScale(double scale) throws WrongRequest {
    if (!(scale >= 0.1 && scale <= 100.0)) {
      throw new WrongRequest(
          "--time-scale: found " + Numbers.plain(scale) + ", allowed is 0.1 to 100");
    }
  }

  /** In order; a file that comes again is another unit of its kind, so no two are the same. */
  private List<Simulation> units() throws FileMistakes, IOException {
    Map<Path, Integer> seen = new HashMap<>();
    List<Simulation> units = new ArrayList<>();
    for (Path file : files) {
      Simulation simulation = SimulationReader.read(file);
      for (int i = 0; i < repeats; i++) {
        int earlier = seen.merge(file.toRealPath(), 1, Integer::sum) - 1;
        units.add(simulation.withSeed(simulation.seed() + earlier));
      }
    }
    return units;
  }

  private List<Station> stations(List<Simulation> units) throws FileMistakes, WrongRequest {
    List<Station> stations = new ArrayList<>();
    int nextPort = firstPort;
    for (Simulation unit : units) {
      int number = stations.size() + 1;
      Path file = Station.file(benchFile, number, units.size());
      SimulatedBench bench = Session.bench(unit, played);
      List<SerialPlace> places = new SerialOption(bench, number, units.size()).places(serial);
      Optional<SimulatedBench.Calibration> calibrated =
          calibrate ? Optional.of(bench.calibrateUnit()) : Optional.empty();
      stations.add(new Station(number, bench, calibrated, file, nextPort, places));
      nextPort += firstPort > 0 ? bench.ports().size() : 0;
    }
    return stations;
  }

  private OutputFiles given(List<Station> stations) {
    OutputFiles outputs = force.outputs().given("bench file that is played", played);
    files.forEach(file -> outputs.given("simulation file", file));
    stations.forEach(one -> outputs.given("unit type file", one.simulation().unitTypeFile()));
    return outputs;
  }

  private void requirePorts(List<Station> stations) throws WrongRequest {
    int addresses = stations.stream().mapToInt(one -> one.bench().ports().size()).sum();
    int highest = HIGHEST_PORT + 1 - addresses;
    if (firstPort < 0 || firstPort > highest) {
      String row = stations.size() > 1 ? " for " + addresses + " ports in a row" : "";
      throw new WrongRequest("--port: found " + firstPort + ", allowed is 0 to " + highest + row);
    }
  }

  private void writeTruths(List<Station> stations, OutputFiles outputs)
      throws WrongRequest, IOException {
    if (truth.isEmpty()) {
      return;
    }
    for (Station station : stations) {
      Path file = Station.file(truth.get(), station.number(), stations.size());
      outputs
          .place("--truth", file, OutputFiles.Kind.UNIT_TRUTH)
          .write(TruthFile.text(station.simulation().name(), station.bench().unitTruth()));
    }
  }

  /** Until the program is killed, or the parent that started it is gone. */
  private void waitForTheEnd(Shown out, ServedStations stations) throws InterruptedException {
    boolean byHand = stations.switchedByHand();
    if (byHand || untilInputEnds) {
      Keys keys = Keys.lines(Input.of(spec), out);
      Optional<String> line = keys.poll();
      while (line.isEmpty() || !Keys.isEnd(line.get())) {
        if (line.isPresent() && byHand) {
          out.println(stations.turnMotorSupply(line.get()));
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
