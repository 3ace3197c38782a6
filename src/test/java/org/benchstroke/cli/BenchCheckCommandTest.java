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

  /** Two real benches with folders of their own and one archive. */
  @Test
  void theArchiveKnowsTheChecksOfAllBenches() throws Exception {
    Path archive = folder.resolve("shop.sqlite");
    for (String name : List.of("North", "South")) {
      Path own = folder.resolve(name + ".toml");
      Files.writeString(
          own,
          Files.readString(Path.of("demo-data/benches/two-wire-feedback.toml"))
              .replaceFirst("(?m)^name = .*$", "name = \"" + name + "\""));
      List<Object> asked = new ArrayList<>(List.of("bench-check", "--bench", own));
      asked.addAll(List.of("--records", folder.resolve(name), "--archive", archive));
      asked.addAll(List.of("--operator", "Ann"));
      for (int i = 0; i < 11; i++) {
        String shown = i % 2 == 0 ? "4.001,12.001,20.001" : "3.999,11.999,19.999";
        List<Object> read = new ArrayList<>(asked);
        read.addAll(List.of("--read", i == 10 && name.equals("South") ? "4.0,12.05,20" : shown));
        Command made = Command.run(read.toArray());
        assertThat(made.err()).isEmpty();
      }
    }
    JsonNode due = json("due", "--archive", archive, "--json");
    assertThat(due).extracting(each -> each.path("bench").asText()).contains("North", "South");
    assertThat(said(due, "North").get("stop").asBoolean()).isFalse();
    assertThat(said(due, "South").get("stop").asBoolean()).isTrue();
    assertThat(said(due, "South").get("says").asText()).startsWith("loop at 12 mA: STOP, +");
    Command table = Command.run("due", "--archive", archive);
    assertThat(table.out()).contains("own check", "South", "STOP");
    assertThat(table.out().lines()).allMatch(line -> line.length() <= 80);
    // The last good check is known, so that looking back need not be told; there is no run yet.
    Command back =
        Command.run("look-back", "--archive", archive, "--bench", "South", "--error", "0.02mA");
    assertThat(back.code()).isEqualTo(2);
    assertThat(back.err()).contains("no real run with it since 20");
    Command none =
        Command.run("look-back", "--archive", archive, "--bench", "East", "--error", "0.02mA");
    assertThat(none.err()).contains("has no good check of bench \"East\"");

    Files.delete(archive);
    Command again =
        Command.run(
            "archive",
            "rebuild",
            folder.resolve("North"),
            folder.resolve("South"),
            "--archive",
            archive);
    assertThat(again.code()).as(again.err()).isZero();
    assertThat(again.out()).contains("Checks:  22 lines of benches' own checks");
    assertThat(json("due", "--archive", archive, "--json")).isEqualTo(due);
  }

  private static JsonNode said(JsonNode due, String bench) {
    for (JsonNode each : due) {
      if (each.get("bench").asText().equals(bench) && each.has("says")) {
        return each;
      }
    }
    throw new AssertionError(bench + " is not in " + due);
  }

  private static JsonNode json(Object... arguments) throws Exception {
    Command asked = Command.run(arguments);
    assertThat(asked.code()).as(asked.err()).isZero();
    return new ObjectMapper().readTree(asked.out());
  }

  /** A slip of the pen is put right by a supervisor; the bench then runs again. */
  @Test
  void aReadingThatWasTypedWrongIsAmended() throws Exception {
    baseline();
    assertThat(read("4.0,12.05,20.0").code()).isEqualTo(1);
    String at =
        new ObjectMapper()
            .readTree(
                Files.readAllLines(folder.resolve("records").resolve(BenchChecks.NAME)).get(10))
            .get("utc")
            .asText();
    List<Object> amend =
        new ArrayList<>(List.of("--amend", at, "--reference", "loop at 12 mA", "--to", "12.000"));
    amend.addAll(List.of("--reason", "typed 12.05 for 12.00"));
    Command nobody = check(amend.toArray());
    assertThat(nobody.code()).isEqualTo(2);
    assertThat(nobody.err()).contains("--supervisor: is missing");
    amend.addAll(List.of("--supervisor", "Eve"));
    Command amended = check(amend.toArray());
    assertThat(amended.code()).as(amended.err()).isZero();
    assertThat(amended.out()).doesNotContain("STOP");
    List<String> lines = Files.readAllLines(folder.resolve("records").resolve(BenchChecks.NAME));
    assertThat(lines).hasSize(12);
    assertThat(lines.get(10)).contains("12.05");
    assertThat(lines.get(11)).contains("Eve", "typed 12.05 for 12.00", "\"was\":12.05");
    assertThat(check("--amend", at, "--supervisor", "Eve").err())
        .contains("add --reference, --to and --reason");
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
