package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code judge} on readings that a person wrote down, as a person at a shell sees it. */
class JudgeCsvTest {
  private static final Path BENCH = Path.of("demo-data/benches/by-hand.toml");
  private static final Path READINGS = Path.of("demo-data/recorded/readings.csv");

  @TempDir Path folder;

  private Path unit(String limits) throws IOException {
    String text = Files.readString(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    return Files.writeString(
        folder.resolve("unit.toml"),
        text.replaceAll("(?s)\\[limits].*", "") + "[limits]\n" + limits);
  }

  private Command judge(Path csv, Path unit, Object... more) {
    Object[] all = new Object[6 + more.length];
    System.arraycopy(
        new Object[] {"judge", csv, "--bench", BENCH, "--unit-type", unit}, 0, all, 0, 6);
    System.arraycopy(more, 0, all, 6, more.length);
    return Command.run(all);
  }

  private Path ordered(String tables) throws IOException {
    return Files.writeString(
        folder.resolve("ordered.toml"),
        "kind = \"procedure\"\nformat = 1\nname = \"ordered\"\nversion = \"1\"\n" + tables);
  }

  private static final String TRAVEL =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      """;

  @Test
  void writtenReadingsAreJudged() throws IOException {
    Path unit = unit("travel_error_pct = 1.5\n");
    Path report = folder.resolve("r.html");
    Path record = folder.resolve("r.jsonl");
    Command judge =
        judge(
            READINGS,
            unit,
            "--date",
            "2026-06-01",
            "--report",
            report,
            "--record",
            record,
            "--serial",
            "SN-4",
            "--procedure",
            ordered(TRAVEL));
    assertThat(judge.out().replaceAll("\\s+", " "))
        .contains("recorded elsewhere, not by this program: readings.csv")
        .contains("PASSED");
    assertThat(judge.code()).isZero();
    assertThat(Files.readString(report)).contains("RECORDED ELSEWHERE").contains("readings.csv");
    assertThat(Command.run("judge", record).out()).isEqualTo(judge.out());
    assertThat(Command.run("judge", record, "--bench", BENCH).code()).isEqualTo(2);
  }

  /** Without an order nobody knows what is missing from a file. */
  @Test
  void withoutAnOrderNothingPasses() throws IOException {
    Path unit = unit("travel_error_pct = 1.5\n");
    Command found = judge(READINGS, unit, "--date", "2026-06-01");
    assertThat(found.out().replaceAll("\\s+", " "))
        .contains("NO RESULT")
        .contains("no order was given")
        .contains("travel error at 0, 25, 50, 75, 100 %, cycles: 1")
        .doesNotContain("PASSED");
    assertThat(found.code()).isEqualTo(1);
  }

  @Test
  void theDemoTraceIsJudgedWithItsBench() throws IOException {
    Object[] judge = {
      "judge",
      "demo-data/recorded/trace.csv",
      "--bench",
      "demo-data/benches/logger.toml",
      "--unit-type",
      "demo-data/unit-types/quarter-turn-15s.toml",
      "--date",
      "2026-06-01",
      "--serial",
      "SIM-1",
      "--procedure",
      ordered("[[test]]\ntest = \"stroke time\"\nrepeats = 1\n\n" + TRAVEL)
    };
    Command passed = Command.run(judge);
    assertThat(passed.out()).contains("PASSED");
    assertThat(passed.code()).isZero();
    judge[7] = "2027-09-01";
    Command overdue = Command.run(judge);
    assertThat(overdue.out()).contains("was due on 2027-08-31").doesNotContain("PASSED");
    assertThat(overdue.code()).isEqualTo(1);
  }

  @Test
  void whatReadingsDoNotShowIsNeverPassed() throws IOException {
    Path unit =
        unit("travel_error_pct = 1.5\nstroke_time_opening_s = { min = 13.5, max = 16.5 }\n");
    Object[] order = {"--date", "2026-06-01", "--serial", "SN-4", "--procedure", ordered(TRAVEL)};
    Command undated =
        judge(READINGS, unit("travel_error_pct = 1.5\n"), order[2], order[3], order[4], order[5]);
    assertThat(undated.code()).isEqualTo(1);
    assertThat(undated.out().replaceAll("\\s+", " ")).contains("not checked: the file has no date");
    unit("travel_error_pct = 1.5\nstroke_time_opening_s = { min = 13.5, max = 16.5 }\n");
    assertThat(judge(READINGS, unit, order).out()).contains("No result: ").doesNotContain("PASSED");
    Path travel = unit("travel_error_pct = 1.5\n");
    Command whole =
        judge(
            READINGS,
            travel,
            "--date",
            "2026-06-01",
            "--serial",
            "SN-4",
            "--procedure",
            "demo-data/procedures/short-acceptance.toml");
    assertThat(whole.code()).isEqualTo(1);
    assertThat(whole.out()).contains("is not done").doesNotContain("PASSED");
    Path short1 = folder.resolve("short.csv");
    Files.writeString(short1, Files.readString(READINGS).replaceFirst("50,down,1,.*\n", ""));
    assertThat(judge(short1, travel, order).out()).contains("No result: ").doesNotContain("PASSED");
  }

  @Test
  void badReadingsAreOneClearLine() throws IOException {
    Path unit = unit("travel_error_pct = 1.5\n");
    Path bad = folder.resolve("bad.csv");
    String text = Files.readString(READINGS);
    Files.writeString(bad, text.replaceFirst("50,down", "50,sideways"));
    Command sideways = judge(bad, unit);
    assertThat(sideways.code()).isEqualTo(2);
    assertThat(sideways.err().lines()).hasSize(1);
    assertThat(sideways.err()).contains("\"sideways\" is no direction; allowed are up, down");
    Files.writeString(bad, text + "50,down,1,50.3\n");
    assertThat(judge(bad, unit).err())
        .contains("is the same setpoint, direction and cycle as line");
    assertThat(Command.run("judge", READINGS).err()).contains("--bench FILE and --unit-type FILE");
  }
}
