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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real commands with link faults of a simulation file, over real sockets. */
@Timeout(120)
class ScriptedFaultOverSocketTest {
  private static final Path HEALTHY = Path.of("simulators/healthy-b.toml");

  private static final String STROKE =
      """
      kind = "procedure"
      format = 1
      name = "Stroke"
      version = "1"
      [[test]]
      test = "stroke time"
      repeats = 1
      """;

  /** From its thirtieth answer on nothing comes from the position input. */
  private static final String SILENT =
      """

      [[fault]]
      on = "position input"
      kind = "drop"
      exchange = 30
      exchanges = 1000000
      """;

  @TempDir Path folder;

  @Test
  void aRunWhosePositionInputFallsSilentHasNoResult() throws Exception {
    Simulation simulation = SimulationReader.read(HEALTHY, Files.readString(HEALTHY) + SILENT);
    SimulatedBench bench = SimulatedBench.builtIn(simulation);
    LeapingClock clock = new LeapingClock();
    try (SimulatorServer server = SimulatorServer.start(bench, clock.followed(), Map.of())) {
      Command run =
          Command.run(
              clock,
              Command.runArguments(
                  Files.writeString(folder.resolve("bench.toml"), server.benchToml()),
                  simulation.unitTypeFile(),
                  Files.writeString(folder.resolve("stroke.toml"), STROKE),
                  folder.resolve("records")));
      assertThat(run.code()).as(run.out()).isEqualTo(3);
      assertThat(run.out()).contains("no reply").contains("position input");
      assertThat(run.out()).contains("Safe signal: ");
    }
  }

  @Test
  void aFaultOnAnUnknownInstrumentIsToldWithFileLineAndKey() throws Exception {
    Path file = folder.resolve("simulation.toml");
    String type = Path.of("demo-data/unit-types/quarter-turn-15s.toml").toAbsolutePath().toString();
    String text =
        Files.readString(HEALTHY)
            .replace("../demo-data/unit-types/quarter-turn-15s.toml", type.replace('\\', '/'));
    Files.writeString(file, text + SILENT.replace("position input", "positon input"));
    Command command = Command.run("simulate", file.toString());
    assertThat(command.code()).isEqualTo(2);
    assertThat(command.err())
        .contains("simulation.toml:" + lineOf(file, "positon input"))
        .contains("fault[1].on")
        .contains("\"source\" or \"loop meter\" or \"position input\" or \"all\"");
  }

  private static int lineOf(Path file, String words) throws Exception {
    int line = 1;
    for (String each : Files.readAllLines(file)) {
      if (each.contains(words)) {
        return line;
      }
      line++;
    }
    throw new AssertionError(words);
  }
}
