package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.simulator.SerialPlace;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.PtyPair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line: a simulator behind a pair of pseudo-terminals
 * that takes its time as a wire of 115200 baud does. A gap on a busy machine excuses a repeat at
 * half the speed, and nothing else does.
 */
class SerialRunTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");
  private static final int REPEATS = 3;

  @TempDir Path folder;

  @Test
  void aHealthyUnitPassesAtTheSpeedOfTheLine() throws Exception {
    double scale = 8;
    Command run = run(scale);
    for (int i = 0; i < REPEATS && run.code() == 3; i++) {
      assertThat(run.out()).as("only a gap excuses a repeat").containsAnyOf("gap", "no reply");
      scale /= 2;
      run = run(scale);
    }
    assertThat(run.code()).as(run.out() + run.err()).isZero();
    assertThat(run.out()).contains("Every limit and every order is met").contains("Safe signal: ");
  }

  @Test
  void whatIsNoLineIsNamed() throws Exception {
    for (String wrong : List.of("rs485", "=far", "rs485=", "rs486=far,near")) {
      Command refused = simulate("--serial", wrong);
      assertThat(refused.code()).as(wrong).isEqualTo(2);
      assertThat(refused.err())
          .startsWith("--serial: ")
          .contains(wrong.startsWith("=") ? "=far" : "rs48");
    }
    Command twice = simulate("--serial", "rs485=far,near", "--serial", "rs485=other");
    assertThat(twice.err()).contains("names a line a second time");
    Command nowhere = simulate("--serial", "rs485=" + folder.resolve("nowhere"));
    assertThat(nowhere.err()).startsWith("--serial: ").contains("nowhere");
    assertThat(simulate("--turn-round-ms", "-1").err()).contains("allowed is 0 to 1000");
  }

  private Command simulate(String... more) throws IOException {
    List<Object> all =
        new java.util.ArrayList<>(
            List.of("simulate", "simulators/healthy-b.toml", "--bench", bench()));
    all.addAll(List.of("--bench-file", folder.resolve("written.toml")));
    all.addAll(List.of(more));
    return Command.run(all.toArray());
  }

  private Command run(double scale) throws Exception {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    SimulatedBench bench = SimulatedBench.around(simulation, "bench", Files.readString(bench()));
    Endpoint.Serial line = bench.serialLine("rs485").orElseThrow();
    Path ports = Files.createDirectory(folder.resolve("ports" + scale));
    try (PtyPair cable = PtyPair.in(ports);
        SimulatorServer server =
            SimulatorServer.start(
                bench,
                SystemClock.scaled(scale),
                Map.of(),
                List.of(new SerialPlace(line, cable.far().port(), cable.near().port())),
                500_000L)) {
      Path written = Files.writeString(folder.resolve("written.toml"), server.benchToml());
      assertThat(written).content().contains(cable.near().text()).contains("speed = 115200");
      return Command.run(
          Command.runArguments(
              written, simulation.unitTypeFile(), folder.resolve("records" + scale)));
    }
  }

  /** A pseudo-terminal has no parity bit; with two stop bits a character still has 11 bits. */
  private Path bench() throws IOException {
    String text = Files.readString(BENCH);
    String other =
        text.replace("speed = 38400", "speed = 115200")
            // This run is dated by the wall, and must not fail once the invented certificate is
            // over.
            .replaceAll("due = 20\\d\\d-", "due = 2099-")
            .replace("parity = \"even\"", "parity = \"none\"\nstop_bits = 2");
    assertThat(other).isNotEqualTo(text).contains("stop_bits");
    return Files.writeString(folder.resolve("bench.toml"), other);
  }
}
