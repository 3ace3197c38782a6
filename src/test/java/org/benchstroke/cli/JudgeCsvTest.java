package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
      ordered("[[test]]\ntest = \"stroke time\"\nrepeats = 1\n\n" + TRAVEL),
      "--report",
      folder.resolve("trace.html")
    };
    Command passed = Command.run(judge);
    assertThat(passed.out()).contains("PASSED");
    assertThat(passed.code()).isZero();
    assertThat(passed.out()).contains("opening (5–95 % ÷ 0.9)");
    assertThat(Files.readString(folder.resolve("trace.html")))
        .contains("by the position, not from end switch to end switch");
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
    assertThat(judge(READINGS, unit, order).out())
        .contains("Could not be judged: ")
        .doesNotContain("PASSED");
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
    assertThat(judge(short1, travel, order).out())
        .contains("Could not be judged: ")
        .doesNotContain("PASSED");
  }

  /** Near a point, and too far from it to be it: the console says which and why. */
  @Test
  void aHandSetCurrentBesideItsPoint() throws IOException {
    Path near = folder.resolve("near.csv");
    Files.writeString(
        near,
        Files.readString(READINGS)
            .replace("setpoint [%]", "setpoint [mA]")
            .replaceAll("(?m)^100,", "20.000,")
            .replaceAll("(?m)^75,", "16.000,")
            .replaceAll("(?m)^50,", "12.000,")
            .replaceAll("(?m)^25,", "8.007,")
            .replaceAll("(?m)^0,", "4.000,"));
    Object[] order = {"--date", "2026-06-01", "--serial", "SN-4", "--procedure", ordered(TRAVEL)};
    Command judge = judge(near, unit("travel_error_pct = 1.5\n"), order);
    assertThat(judge.code()).isEqualTo(1);
    assertThat(judge.out().replaceAll("\\s+", " "))
        .contains("A setpoint of 25.044 % was taken for none of the points asked for: 25 % is")
        .contains("No result for travel error, 25 % up")
        .contains("the record holds no reading");
  }

  @Test
  void aHeaderOfNoKnownColumn() throws IOException {
    Path bad = folder.resolve("bad.csv");
    Files.writeString(bad, "Soll,Richtung,Ist\n25,auf,24.9\n50,auf,49.9\n");
    Command judge = judge(bad, unit("travel_error_pct = 1.5\n"));
    assertThat(judge.code()).isEqualTo(2);
    assertThat(judge.err())
        .contains("readings that were written down (setpoint, direction, reading)")
        .contains("a trace (time, setpoint, position)")
        .contains("Soll, Richtung, Ist");
    Files.writeString(bad, "Soll [%],direction,Ist [%]\n25,up,24.9\n50,up,49.9\n");
    assertThat(judge(bad, unit("travel_error_pct = 1.5\n")).err())
        .contains("has no column for setpoint, reading")
        .doesNotContain("time");
  }

  /** A unit is understood, or the allowed ones are told; none is put into anyone's mouth. */
  @Test
  void unitsOfColumns() throws IOException {
    Path unit = unit("travel_error_pct = 1.5\n");
    Object[] order = {"--date", "2026-06-01", "--serial", "SN-4", "--procedure", ordered(TRAVEL)};
    Path other = folder.resolve("other.csv");
    String text = Files.readString(READINGS);
    for (String name : List.of("µA", "\u03bcA", "uA", "A")) {
      String scaled = text.replace("setpoint [%]", "setpoint [" + name + "]");
      for (int percent : new int[] {0, 25, 50, 75, 100}) {
        int micro = 4000 + 160 * percent;
        String written = name.equals("A") ? "%.6f".formatted(micro / 1.0e6) : "" + micro;
        scaled = scaled.replaceAll("(?m)^" + percent + ",", written + ",");
      }
      Files.writeString(other, scaled);
      Command judge = judge(other, unit, order);
      assertThat(judge.out()).as(name + judge.err()).contains("PASSED");
    }
    Files.writeString(other, text.replace("setpoint [%]", "setpoint [psi]"));
    assertThat(judge(other, unit).err())
        .contains("has the unit \"psi\"; allowed for setpoint is %, mA, A, µA, uA: convert")
        .doesNotContain("--column");
    Files.writeString(other, text.replace("setpoint [%]", "setpoint"));
    assertThat(judge(other, unit).err()).contains("states no unit").contains("setpoint:UNIT");
    Files.writeString(other, text.replace("50,up,1,50.0", "50,up,1,NaN"));
    assertThat(judge(other, unit).err())
        .contains("column \"reading [%]\": is NaN, not a number; delete the row")
        .contains("other.csv:4:");
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
    assertThat(sideways.err()).contains("\"sideways\" is not a direction; allowed are up, down");
    Files.writeString(bad, text + "50,down,1,50.3\n");
    assertThat(judge(bad, unit).err())
        .contains("is the same setpoint, direction and cycle as line");
    assertThat(Command.run("judge", READINGS).err()).contains("--bench FILE and --unit-type FILE");
  }
}
