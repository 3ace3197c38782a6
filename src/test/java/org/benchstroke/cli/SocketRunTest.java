package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The real {@code run} command against a simulator on real sockets. On a busy machine a gap may
 * void a run: such a run, and only such a one, is repeated at half the speed.
 */
class SocketRunTest {
  private static final int REPEATS = 3;

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({
    "healthy-b, 10, 0, Every limit and every order is met",
    "slack-after-sensor, 20, 1, slack after the sensor",
    "span-error, 20, 1, span",
    "zero-shift, 20, 1, the zero is shifted",
    "cam-set-short, 20, 1, open switch made",
    "reversed-action, 20, 1, reversed",
    "wrong-fail-action, 20, 1, loss",
    "loop-resistance-too-high, 20, 3, loop resistance is too high"
  })
  void eachUnitGetsItsVerdict(String name, double scale, int code, String words) throws Exception {
    Command run = run(name, scale);
    for (int i = 0; i < REPEATS && code != 3 && run.code() == 3; i++) {
      assertThat(run.out()).as("only a gap excuses a repeat").containsAnyOf("gap", "no reply");
      scale /= 2;
      run = run(name, scale);
    }
    assertThat(run.code()).as(run.out()).isEqualTo(code);
    assertThat(run.out()).contains(words);
    assertThat(run.out()).contains("Safe signal: ").contains("Report:").contains("Record:");
    assertThat(run.err()).isEmpty();
  }

  private Command run(String name, double scale) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators", name + ".toml"));
    try (SimulatorServer server =
        SimulatorServer.start(SimulatedBench.of(simulation), SystemClock.scaled(scale), Map.of())) {
      return Command.run(
          Command.runArguments(
              bench(server, scale), simulation.unitTypeFile(), folder.resolve("records" + scale)));
    }
  }

  private Path bench(SimulatorServer server, double scale) throws IOException {
    return Files.writeString(folder.resolve("bench" + scale + ".toml"), server.benchToml());
  }
}
