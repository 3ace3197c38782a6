package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.app.BenchChecks;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A bench is checked by eye, day by day, until it is stopped. */
class BenchCheckCommandTest {
  @TempDir Path folder;

  private Path bench;

  @BeforeEach
  void bench() throws Exception {
    bench = folder.resolve("bench.toml");
    Path simulation = Path.of("simulators/healthy-b.toml");
    SimulatedBench unit = SimulatedBench.of(SimulationReader.read(simulation));
    Files.writeString(bench, unit.benchToml(Map.of(), 1.0));
  }

  private Command check(Object... more) {
    List<Object> arguments = new ArrayList<>(List.of("bench-check", "--bench", bench));
    arguments.addAll(List.of("--records", folder.resolve("records")));
    arguments.addAll(List.of(more));
    return Command.run(arguments.toArray());
  }

  private Command read(String readings) {
    return check("--read", readings, "--operator", "Ann");
  }

  private void baseline() {
    for (int i = 0; i < 10; i++) {
      Command made = read(i % 2 == 0 ? "4.001,12.001,20.001" : "3.999,11.999,19.999");
      assertThat(made.code()).as(made.err()).isZero();
    }
  }

  @Test
  void aStoppedBenchRunsNothingUntilSomebodyAnswers() throws Exception {
    assertThat(check().out()).contains("No check of this bench yet.");
    baseline();
    assertThat(check().out()).contains("good, ", "SIMULATED bench");
    Command warned = read("4.0,12.0026,20.0");
    assertThat(warned.code()).isZero();
    assertThat(warned.out()).contains("WARNING, +2.5σ");
    Path picture = folder.resolve("check.svg");
    Command stopped = check("--read", "4.0,12.0040,20.0", "--operator", "Ann", "--svg", picture);
    assertThat(stopped.code()).isEqualTo(1);
    assertThat(stopped.out()).contains("STOP, +3.8σ", "STOP: nothing is tested");
    assertThat(stopped.out().lines()).allMatch(line -> line.length() <= 80);
    assertThat(Files.readString(picture)).contains("loop at 12 mA", "stop, beyond 3σ", "SIMULATED");

    Path unit = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
    Command run = Command.run(Command.runArguments(bench, unit, folder.resolve("records")));
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err().lines().filter(line -> line.startsWith("Bench ")))
        .singleElement()
        .asString()
        .contains("its own check, loop at 12 mA, says STOP, +3.8σ; nothing is tested until");

    Command noted = check("--note", "loose terminal, tightened", "--supervisor", "Eve");
    assertThat(noted.code()).as(noted.err()).isZero();
    assertThat(noted.out()).contains("answered by a note");
    JsonNode json = new ObjectMapper().readTree(check("--json").out());
    assertThat(json.get("stop").asBoolean()).isFalse();
    assertThat(json.get("references")).hasSize(3);
    assertThat(json.get("references").get(1).get("state").asText()).isEqualTo("stop");
    assertThat(json.get("references").get(2).get("state").asText()).isEqualTo("in_control");
    assertThat(Files.readAllLines(folder.resolve("records").resolve(BenchChecks.NAME))).hasSize(13);
  }

  /** The preflight of a run has read the loop; a reference unit's measure is read by the run. */
  @Test
  void readingsComeFromRuns() throws Exception {
    List<Object> run = new ArrayList<>(List.of("run", "--unattended"));
    run.addAll(List.of("--simulation", "simulators/healthy-b.toml", "--serial", "REF-1"));
    run.addAll(List.of("--procedure", "demo-data/procedures/short-acceptance.toml"));
    run.addAll(List.of("--operator", "Ann", "--order", "none", "--records", folder));
    assertThat(Command.run(run.toArray()).code()).isZero();
    Path record = ShortRun.recordIn(folder);
    Command loop = check("--from", record, "--operator", "Ann");
    assertThat(loop.code()).as(loop.err()).isZero();
    assertThat(loop.out()).contains("loop at 4 mA", "loop at 20 mA", "baseline: 1 of 10");
    Command unit =
        check("--from", record, "--measure", "stroke_time_opening_s", "--operator", "Ann");
    assertThat(unit.out()).contains("REF-1: stroke time, opening");
    Command other =
        Command.run(
            "bench-check",
            "--bench",
            "demo-data/benches/two-wire-feedback.toml",
            "--from",
            record,
            "--operator",
            "Ann",
            "--records",
            folder);
    assertThat(other.code()).isEqualTo(2);
    assertThat(other.err()).contains(": is no run of this bench, but of simulated ");
  }

  /** Over real sockets; the simulated instruments are within 0.02 mA. */
  @Test
  void theLoopIsReadOnTheBench() throws Exception {
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, SystemClock.scaled(20.0), Map.of())) {
      Files.writeString(bench, server.benchToml());
      Path type = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
      Command read = check("--loop", type, "--operator", "Ann", "--unattended", "--json");
      assertThat(read.code()).as(read.err()).isZero();
      JsonNode references = new ObjectMapper().readTree(read.out()).get("references");
      assertThat(references).hasSize(3);
      assertThat(references.get(1).get("reference").asText()).isEqualTo("loop at 12 mA");
      assertThat(references.get(1).get("newest").asDouble()).isCloseTo(12.0, within(0.02));
      assertThat(read.err()).contains("Switch the motor power of the unit off", "Safe signal: ");
    }
    Command gone =
        check(
            "--loop",
            "demo-data/unit-types/quarter-turn-15s.toml",
            "--operator",
            "Ann",
            "--unattended");
    assertThat(gone.code()).isEqualTo(3);
    assertThat(Files.readAllLines(folder.resolve("records").resolve(BenchChecks.NAME))).hasSize(1);
    Command person =
        Command.run(
            "bench-check",
            "--bench",
            "demo-data/benches/two-wire-feedback.toml",
            "--loop",
            "demo-data/unit-types/quarter-turn-15s.toml",
            "--operator",
            "Ann",
            "--unattended");
    assertThat(person.code()).isEqualTo(2);
    assertThat(person.err()).contains("--unattended is for simulated benches only");
  }

  @Test
  void aWrongRequestIsALineAndWritesNothing() {
    assertThat(read("4.0,12.0").err())
        .isEqualTo(
            "--read: found 2 numbers, allowed are three, at 4, 12 and 20 mA: 4.001,12.000,19.998\n");
    assertThat(read("4.0,20.0,12.0").err())
        .isEqualTo(
            "--read: found 20 in place of 12 mA; allowed is within 2 mA of it, in the order 4, 12,"
                + " 20 mA\n");
    assertThat(check("--read", "4,12,20").err())
        .isEqualTo("--operator: is missing; say who checks\n");
    assertThat(check("--note", "all is well").err())
        .isEqualTo("--supervisor: is missing; say who answers for the bench\n");
    assertThat(check("--supervisor", "Eve").err())
        .isEqualTo("--supervisor and --new-baseline go with --note\n");
    assertThat(check("--measure", "dead_band_pct").err())
        .isEqualTo("--measure: goes with --from, the record of a run\n");
    assertThat(folder.resolve("records").resolve(BenchChecks.NAME)).doesNotExist();
  }
}
