package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The real {@code run} command against a simulator on real sockets, some runs side by side: they
 * wait most of the time. On a busy machine a gap may void a run: such a run, and only such a one,
 * is repeated at half the speed.
 */
class SocketRunTest {
  private static final int REPEATS = 4;
  private static final int SIDE_BY_SIDE = 3;
  private static final Path WHOLE = Path.of("demo-data/procedures/short-acceptance.toml");

  /** Shows every fault of the list below; the healthy unit goes through the whole acceptance. */
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["lost"]
      """;

  private record Case(String simulation, double scale, int code, String words) {
    @Override
    public String toString() {
      return simulation;
    }
  }

  private static final List<Case> CASES =
      List.of(
          new Case("healthy-b", 10, 0, "Every limit and every order is met"),
          new Case("slack-after-sensor", 20, 1, "slack after the sensor"),
          new Case("span-error", 20, 1, "span"),
          new Case("zero-shift", 20, 1, "the zero is shifted"),
          new Case("cam-set-short", 20, 1, "open switch made"),
          new Case("reversed-action", 20, 1, "reversed"),
          new Case("wrong-fail-action", 20, 1, "loss"),
          new Case("loop-resistance-too-high", 20, 3, "loop resistance is too high"));

  @TempDir static Path folder;

  private static final ExecutorService RUNS = Executors.newFixedThreadPool(SIDE_BY_SIDE);
  private static final Map<Case, Future<Command>> ENDS = new LinkedHashMap<>();

  static List<Case> cases() {
    return CASES;
  }

  @BeforeAll
  static void begin() throws IOException {
    Files.writeString(folder.resolve("brief.toml"), BRIEF);
    CASES.forEach(each -> ENDS.put(each, RUNS.submit(() -> untilNoGap(each))));
  }

  @AfterAll
  static void end() {
    RUNS.shutdownNow();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void eachUnitGetsItsVerdict(Case each) throws Exception {
    Command run = ENDS.get(each).get();
    assertThat(run.code()).as(run.out()).isEqualTo(each.code());
    assertThat(run.out()).contains(each.words());
    assertThat(run.out()).contains("Safe signal: ").contains("Report:").contains("Record:");
    assertThat(run.err()).isEmpty();
  }

  private static Command untilNoGap(Case each) throws Exception {
    double scale = each.scale();
    Command run = run(each.simulation(), scale);
    for (int i = 0; i < REPEATS && each.code() != 3 && run.code() == 3; i++) {
      assertThat(run.out()).as("only a gap excuses a repeat").containsAnyOf("gap", "no reply");
      scale /= 2;
      run = run(each.simulation(), scale);
    }
    return run;
  }

  private static Command run(String name, double scale) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators", name + ".toml"));
    Path own = Files.createDirectories(folder.resolve(name + scale));
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation), SystemClock.scaled(scale), Map.of())) {
      return Command.run(
          Command.runArguments(
              Files.writeString(own.resolve("bench.toml"), server.benchToml()),
              simulation.unitTypeFile(),
              name.equals("healthy-b") ? WHOLE : folder.resolve("brief.toml"),
              own.resolve("records")));
    }
  }
}
