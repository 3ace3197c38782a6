package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The real {@code run} command against a simulator on real sockets, both by one clock. */
class SocketRunTest {
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

  @TempDir private Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          healthy-b                | 0 | Every limit and every order is met
          slack-after-sensor       | 1 | slack after the sensor
          span-error               | 1 | span
          zero-shift               | 1 | the zero is shifted
          cam-set-short            | 1 | open switch made
          reversed-action          | 1 | reversed
          wrong-fail-action        | 1 | loss
          loop-resistance-too-high | 3 | loop resistance is too high
          """)
  void eachUnitGetsItsVerdict(String unit, int code, String words) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators", unit + ".toml"));
    LeapingClock clock = new LeapingClock();
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation), clock.followed(), Map.of())) {
      Command run =
          Command.run(
              clock,
              Command.runArguments(
                  Files.writeString(folder.resolve("bench.toml"), server.benchToml()),
                  simulation.unitTypeFile(),
                  unit.equals("healthy-b")
                      ? WHOLE
                      : Files.writeString(folder.resolve("brief.toml"), BRIEF),
                  folder.resolve("records")));
      assertThat(run.code()).as(run.out()).isEqualTo(code);
      assertThat(run.out()).contains(words);
      assertThat(run.out()).contains("Safe signal: ").contains("Report:").contains("Record:");
      assertThat(run.err()).isEmpty();
    }
  }
}
