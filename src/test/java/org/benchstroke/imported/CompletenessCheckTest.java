package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What was recorded and does not fit the scheme is evidence: it is judged, or nothing passes. */
class CompletenessCheckTest {
  private static final List<String> SOUND =
      List.of(
          "setpoint [%],direction,cycle,reading [%]",
          "25,up,1,24.9",
          "50,up,1,50.0",
          "75,up,1,74.9",
          "100,up,1,99.9",
          "75,down,1,75.1",
          "50,down,1,50.2",
          "25,down,1,25.1",
          "0,down,1,0.1");

  @TempDir Path folder;

  private Foreign readings() {
    return new Foreign(folder);
  }

  private Foreign trace() {
    return new Foreign(folder).logged();
  }

  @Test
  void aSoundFilePassesWithItsOrder() throws FileMistakes {
    JudgedRun run = readings().travel("0, 25, 50, 75, 100", 1).judge(SOUND);
    assertThat(run.passed()).as(run.reason()).isTrue();
    JudgedRun logged = trace().travel("0, 25, 50, 75, 100", 1).judge(sound().lines());
    assertThat(logged.passed()).as(logged.reason() + logged.orders()).isTrue();
  }

  /** A file without an order says so first; a fail that it shows stands. */
  @Test
  void withoutAnOrderNothingPasses() throws FileMistakes {
    JudgedRun found = readings().judge(SOUND);
    assertThat(found.reason()).startsWith("Not judged: no order was given").contains("--procedure");
    assertThat(found.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(found.passed()).isFalse();
    JudgedRun nameless = readings().serial("").travel("0, 25, 50, 75, 100", 1).judge(SOUND);
    assertThat(nameless.reason()).startsWith("Not judged: no order was given").contains("--serial");
    assertThat(nameless.passed()).isFalse();
    assertThat(trace().judge(sound().lines()).reason()).startsWith("Not judged: no order");
    List<String> off = new ArrayList<>(SOUND);
    off.set(1, "25,up,1,29.9");
    JudgedRun failed = readings().judge(off);
    assertThat(failed.verdict()).isEqualTo(Word.FAIL);
    assertThat(failed.reason()).contains("no order was given");
  }

  /** Rows of the scheme are missing, so that the row that is 5 % off has no place in it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "100,up   | 75,down,1,80.1 | 75 % down",
        "0,down   | 25,up,1,29.9   | 25 % up",
        "100,up   | 50,down,1,45.0 | 50 % down",
        "75,up    | 50,up,1,45.0   | 50 % up",
      })
  void aReadingThatDoesNotFitIsJudged(String missing, String off, String place)
      throws FileMistakes {
    String start = off.substring(0, off.lastIndexOf(','));
    List<String> rows = new ArrayList<>();
    for (String row : SOUND) {
      if (!row.startsWith(missing)) {
        rows.add(row.startsWith(start) ? off : row);
      }
    }
    for (Foreign foreign :
        List.of(
            readings(),
            readings().travel("0, 25, 50, 75, 100", 1),
            readings().travel("25, 50, 75", 1),
            readings().travel("0, 50, 75", 1),
            readings().travel("0, 50, 100", 1))) {
      JudgedRun run = foreign.judge(rows);
      assertThat(run.passed()).as(run.reason()).isFalse();
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
      assertThat(run.reason()).contains("travel error at " + place);
    }
  }

  @Test
  void cyclesAndPointsThatNobodyAskedForAreJudged() throws FileMistakes {
    List<String> more = new ArrayList<>(SOUND);
    more.add("25,up,2,28.0");
    JudgedRun third = readings().travel("0, 25, 50, 75, 100", 1).judge(more);
    assertThat(third.verdict()).as(third.reason()).isEqualTo(Word.FAIL);
    more.set(more.size() - 1, "60,up,1,57.0");
    JudgedRun between = readings().travel("0, 25, 50, 75, 100", 1).judge(more);
    assertThat(between.verdict()).as(between.reason()).isEqualTo(Word.FAIL);
    more.set(more.size() - 1, "60,up,1,60.0");
    JudgedRun sound = readings().travel("0, 25, 50, 75, 100", 1).judge(more);
    assertThat(sound.passed()).as(sound.reason()).isTrue();
    more.set(more.size() - 1, "105,up,1,100.0");
    assertThatThrownBy(() -> readings().judge(more)).hasMessageContaining("0 to 100 %");
  }

  private static List<String> with(String... more) {
    List<String> rows = new ArrayList<>(SOUND);
    rows.addAll(List.of(more));
    return rows;
  }

  /** Each value that was made of the asked readings has a limit that it keeps by itself. */
  private Foreign limited(String key, int cycles) {
    return readings().travel("0, 25, 50, 75, 100", cycles).limits("travel_error_pct = 3.0\n" + key);
  }

  /**
   * What was written beside the asked readings is within the limit on the travel error, and beyond
   * the limit of what only the asked readings are made into.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "hysteresis_plus_dead_band_pct = 0.8       | 60,up,1,59.4   | 60,down,1,60.6  | 60 %",
        "hysteresis_plus_dead_band_means_pct = 0.8 | 60,up,1,59.4   | 60,down,1,60.6  | 60 %",
        "hysteresis_plus_dead_band_pct = 0.8       | 25,up,2,23.8   | 25,down,2,26.2  | 25 %",
        "linearity_independent_pct = 0.4           | 60,up,1,60.85  | 60,down,1,60.85 | 60 %",
        "linearity_terminal_pct = 0.5              | 60,up,1,60.85  | 60,down,1,60.85 | 60 %",
        "linearity_zero_based_pct = 0.4            | 50,up,2,50.8   | 50,down,2,50.8  | 50 %",
        "zero_error_pct = 0.5                      | 25,up,2,24.9   | 0,down,2,0.8    | 0 %",
        "span_error_pct = 0.6                      | 100,up,2,99.2  | 75,down,2,75.1  | 100 %",
      })
  void whatContradictsTheAskedReadingsLeavesThemWithoutResult(
      String limit, String one, String other, String place) throws FileMistakes {
    JudgedRun alone = limited(limit, 1).judge(SOUND);
    assertThat(alone.passed()).as(alone.reason()).isTrue();
    JudgedRun run = limited(limit, 1).judge(with(one, other));
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(run.judgements())
        .filteredOn(j -> j.limit().isPresent() && j.word().equals(Optional.of(Word.NO_RESULT)))
        .isNotEmpty()
        .allSatisfy(
            j ->
                assertThat(j.measure().note())
                    .contains("another reading at " + place)
                    .containsPattern("is 0\\.\\d\\d % off|is 1\\.\\d\\d % off")
                    .contains(place.equals("60 %") ? "ask for that point" : "as many cycles"));
    assertThat(run.sentences()).anyMatch(f -> f.contains("another reading at " + place));
    assertThat(run.judgements())
        .filteredOn(j -> j.measure().kind() == MeasureKind.TRAVEL_ERROR)
        .allSatisfy(j -> assertThat(j.word()).contains(Word.PASS));
  }

  /** Three cycles agree to the last digit; the fourth, which was not asked for, does not. */
  @Test
  void aFourthCycleThatStrays() throws FileMistakes {
    List<String> rows = new ArrayList<>(SOUND);
    for (int cycle = 2; cycle <= 3; cycle++) {
      for (String row : SOUND.subList(1, SOUND.size())) {
        rows.add(row.replace(",1,", "," + cycle + ","));
      }
    }
    Foreign three = limited("repeatability_pct = 0.4", 3);
    JudgedRun sound = three.judge(rows);
    assertThat(sound.passed()).as(sound.reason()).isTrue();
    rows.add("50,up,4,50.0");
    JudgedRun agrees = three.judge(rows);
    assertThat(agrees.passed()).as(agrees.reason()).isTrue();
    rows.set(rows.size() - 1, "50,up,4,51.5");
    JudgedRun strays = three.judge(rows);
    assertThat(strays.verdict()).as(strays.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(strays.reason()).contains("repeatability");
  }

  /** Each of them is within the U of its difference; together they are 0.3 % of hysteresis. */
  @Test
  void straysThatHideTogetherWhatNoneShows() throws FileMistakes {
    for (String key :
        List.of("hysteresis_plus_dead_band_pct", "hysteresis_plus_dead_band_means_pct")) {
      Foreign foreign = limited(key + " = 0.45", 1);
      JudgedRun agrees = foreign.judge(with("60,up,1,60.0", "60,down,1,60.1"));
      assertThat(agrees.passed()).as(agrees.reason()).isTrue();
      JudgedRun run = foreign.judge(with("60,up,1,59.8", "60,down,1,60.3"));
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.NO_RESULT);
      assertThat(run.judgements())
          .anyMatch(j -> j.measure().note().contains("with the extra readings of the file"));
    }
  }

  /** A display in steps of 0.5 % beside a bench file that states 0.1 %: its digits are no more. */
  @Test
  void aDisplayThatMovesInStepsTellsSo() throws FileMistakes {
    List<String> rows = new ArrayList<>();
    SOUND.forEach(row -> rows.add(row.contains(".1") ? row.replace(".1", ".0") : row));
    rows.replaceAll(row -> row.replace(".9", ".5").replace(".2", ".5"));
    JudgedRun run = readings().travel("0, 25, 50, 75, 100", 1).judge(rows);
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("in steps of 0.50 %", "a resolution of 0.1 %", "resolution");
    JudgedRun stated =
        readings()
            .bench("resolution_pct = 0.1", "resolution_pct = 0.5")
            .limits("travel_error_pct = 2")
            .travel("0, 25, 50, 75, 100", 1)
            .judge(rows);
    assertThat(stated.passed()).as(stated.reason()).isTrue();
    List<String> logged = new ArrayList<>(List.of(sound().lines().get(0)));
    for (MadeUpTrace.Row row : sound().rows) {
      row.position = Math.rint(row.position / 0.5) * 0.5;
      logged.add(row.text());
    }
    JudgedRun coarse = trace().travel("0, 25, 50, 75, 100", 1).judge(logged);
    assertThat(coarse.verdict()).as(coarse.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(coarse.reason()).contains("in steps of");
  }

  /** A row behind a # was recorded all the same; a comment of words was not. */
  @Test
  void rowsThatAreCommentedOut() throws FileMistakes {
    Foreign foreign = readings().travel("0, 25, 50, 75, 100", 1);
    List<String> words = new ArrayList<>(SOUND);
    words.add(3, "# by the lamp at 4, 20 mA and 24 V, on 2026-06-01");
    JudgedRun sound = foreign.judge(words);
    assertThat(sound.passed()).as(sound.reason()).isTrue();
    for (String row : List.of("#60,up,1,53.0", "# 60,up,1,53.0,bad", "## 60,up,1")) {
      JudgedRun run = foreign.judge(with(row));
      assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.NO_RESULT);
      assertThat(run.reason()).contains("line 10 holds figures behind a #");
    }
    List<String> lines = sound().lines();
    lines.set(200, "#" + lines.get(200));
    lines.set(201, "#" + lines.get(201));
    JudgedRun run = trace().travel("0, 25, 50, 75, 100", 1).judge(lines);
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.reason()).contains("line 201 and 1 more");
  }

  /** One file is of one unit, where it says of which. */
  @Test
  void rowsOfAnotherUnit() throws FileMistakes {
    List<String> rows = new ArrayList<>();
    SOUND.forEach(row -> rows.add(row + (rows.isEmpty() ? ",serial" : ",SN-1")));
    Foreign foreign = readings().travel("0, 25, 50, 75, 100", 1);
    JudgedRun same = foreign.judge(rows);
    assertThat(same.passed()).as(same.reason()).isTrue();
    rows.set(4, rows.get(4).replace("SN-1", "SN-2"));
    JudgedRun two = foreign.judge(rows);
    assertThat(two.verdict()).as(two.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(two.reason()).contains("line 5 is of the unit \"SN-2\"");
  }

  /** What the asked readings fail by stays a fail, whatever else the file holds. */
  @Test
  void aFailOfTheAskedReadingsStands() throws FileMistakes {
    List<String> rows = with("60,up,1,60.85");
    rows.set(2, "50,up,1,48.8");
    JudgedRun run = limited("hysteresis_plus_dead_band_pct = 0.8", 1).judge(rows);
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.FAIL);
    assertThat(run.reason()).contains("hysteresis + dead band");
  }

  /** Points and a cycle that agree with the asked readings take nothing from them. */
  @Test
  void moreReadingsThatAgree() throws FileMistakes {
    String all =
        """
        hysteresis_plus_dead_band_pct = 0.8
        hysteresis_plus_dead_band_means_pct = 0.8
        linearity_independent_pct = 0.4
        zero_error_pct = 0.5
        span_error_pct = 0.6\
        """;
    List<String> rows = with("10,up,1,9.9", "60,up,1,60.0", "60,down,1,60.2", "90,down,1,90.1");
    SOUND.subList(1, SOUND.size()).forEach(r -> rows.add(r.replace(",1,", ",2,")));
    JudgedRun run = limited(all, 1).judge(rows);
    assertThat(run.passed()).as(run.reason()).isTrue();
  }

  /** A certificate says nothing of a day before it, after its end, or that nobody knows. */
  @Test
  void readingsOfADayThatNoCertificateCovers() throws FileMistakes {
    Foreign early = readings().travel("0, 25, 50, 75, 100", 1).bench("2026-02-10", "2026-06-02");
    JudgedRun before = early.judge(SOUND);
    assertThat(before.verdict()).as(before.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(before.reason()).contains("calibrated on 2026-06-02, after 2026-06-01");
    JudgedRun undated = readings().travel("0, 25, 50, 75, 100", 1).undated().judge(SOUND);
    assertThat(undated.verdict()).as(undated.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(undated.reason()).contains("not checked").contains("--date");
    JudgedRun onTheDay =
        readings().travel("0, 25, 50, 75, 100", 1).bench("2026-02-10", "2026-06-01").judge(SOUND);
    assertThat(onTheDay.passed()).as(onTheDay.reason()).isTrue();
  }

  /** An instrument that the bench file doesn't have would be read by nobody. */
  @Test
  void columnsThatNobodyReads() throws FileMistakes {
    List<String> stem = new ArrayList<>();
    SOUND.forEach(row -> stem.add(row + (stem.isEmpty() ? ",stem [%]" : ",60")));
    assertThatThrownBy(() -> readings().judge(stem)).hasMessageContaining("angle reference");
    stem.set(0, stem.get(0).replace("stem [%]", "loop [mA]"));
    assertThatThrownBy(() -> readings().judge(stem)).hasMessageContaining("has no place beside");
    stem.set(0, stem.get(0).replace("loop [mA]", "remark"));
    JudgedRun run = readings().travel("0, 25, 50, 75, 100", 1).judge(stem);
    assertThat(run.sentences()).contains("Columns that were not read: remark.");
    assertThat(run.passed()).as(run.reason()).isTrue();
  }

  private static MadeUpTrace sound() {
    return new MadeUpTrace(1).to(0.0).cycle(0.0, 25.0, 50.0, 75.0, 100.0);
  }

  private void neverPasses(MadeUpTrace trace, String why) throws FileMistakes {
    for (Foreign foreign :
        List.of(
            trace(), trace().travel("0, 25, 50, 75, 100", 1), trace().travel("0, 50, 100", 1))) {
      JudgedRun run = foreign.judge(trace.lines());
      assertThat(run.passed()).as(run.reason()).isFalse();
    }
    JudgedRun run = trace().travel("0, 25, 50, 75, 100", 1).judge(trace.lines());
    assertThat(run.verdict()).as(run.reason() + run.orders()).isNotEqualTo(Word.PASS);
    assertThat(run.reason() + run.orders()).contains(why);
  }

  @Test
  void huntingAfterTheRest() throws FileMistakes {
    MadeUpTrace trace = new MadeUpTrace(2).to(0.0).to(25.0).to(50.0).to(75.0).to(100.0);
    double[] swing = new double[120];
    for (int i = 0; i < swing.length; i++) {
      double phase = i / 60.0 % 1.0;
      trace.add(100.0 - 90.0 * (1.0 - Math.abs(1.0 - 2.0 * phase)) * 0.5);
    }
    trace.to(100.0, 4.0).to(75.0).to(50.0).to(25.0).to(0.0);
    neverPasses(trace, "after it had come to rest");
  }

  @Test
  void huntingBeforeTheRest() throws FileMistakes {
    MadeUpTrace trace = new MadeUpTrace(2).to(0.0).to(25.0).to(50.0).to(75.0).to(100.0, 4.0);
    for (int i = 0; i < 70; i++) {
      double phase = i / 70.0;
      trace.add(100.0 - 40.0 * (1.0 - Math.abs(1.0 - 2.0 * phase)));
    }
    trace.to(100.0, 6.0).to(75.0).to(50.0).to(25.0).to(0.0);
    neverPasses(trace, "went back");
  }

  @Test
  void aThirdCycleThatWasCutShort() throws FileMistakes {
    MadeUpTrace trace = sound();
    trace.rests((setpoint, side) -> setpoint + 3.0).to(25.0).to(50.0);
    neverPasses(trace, "travel error at");
  }

  @Test
  void motionThatNobodyCommanded() throws FileMistakes {
    MadeUpTrace behind = sound();
    for (int i = 0; i < 60; i++) {
      behind.add(Math.min(8.0, i * 0.5));
    }
    neverPasses(behind, "after it had come to rest");
    MadeUpTrace before = new MadeUpTrace(1).to(0.0);
    for (int i = 0; i < 60; i++) {
      before.add(Math.min(8.0, i * 0.5));
    }
    before.to(0.0, 4.0).cycle(0.0, 25.0, 50.0, 75.0, 100.0);
    neverPasses(before, "after it had come to rest");
  }

  @Test
  void restlessForAllItsTime() throws FileMistakes {
    MadeUpTrace trace = sound().to(50.0, 3.0);
    for (int i = 0; i < 600; i++) {
      trace.add(50.0 + (i / 10 % 2 == 0 ? 0.4 : -0.4));
    }
    neverPasses(trace, "never came to rest");
  }

  @Test
  void damageBetweenTests() throws FileMistakes {
    MadeUpTrace trace = sound().to(10.0);
    trace.rows.subList(trace.rows.size() - 40, trace.rows.size() - 20).clear();
    neverPasses(trace, "the file is damaged");
  }

  /** A stem that was written down beside the readings is judged with them. */
  @Test
  void aWrittenStemIsJudged() throws FileMistakes {
    String reference =
        """
        scatter_pct = 0.03

        [[instrument]]
        name = "inclinometer"
        roles = ["angle reference"]
        speaks = "typed in"
        serial = "IN-1"
        certificate = "C-0110"
        calibrated = 2026-02-10
        due = 2027-08-31
        [instrument.angle_reference]
        accuracy = "±0.1 °"
        resolution_deg = 0.1
        scatter_deg = 0.05
        """;
    for (double off : new double[] {0.0, 4.5}) {
      List<String> rows = new ArrayList<>(List.of(SOUND.get(0) + ",stem [deg]"));
      for (String row : SOUND.subList(1, SOUND.size())) {
        double at = Double.parseDouble(Arrays.asList(row.split(",", -1)).get(0)) * 0.9;
        double read = row.contains("up") ? at - 0.1 : at;
        rows.add(row + "," + (row.startsWith("50,down") ? read + off : read));
      }
      JudgedRun run =
          readings()
              .bench("scatter_pct = 0.03", reference)
              .travel("0, 25, 50, 75, 100", 1)
              .judge(rows);
      assertThat(run.stemProven()).isTrue();
      assertThat(run.verdict()).as(run.reason()).isEqualTo(off == 0.0 ? Word.PASS : Word.FAIL);
      rows.removeIf(row -> row.startsWith("50,down"));
      rows.add("50,down,1,50.2,45.0");
      rows.add("60,down,1,60.2," + (54.0 + off));
      JudgedRun beside =
          readings()
              .bench("scatter_pct = 0.03", reference)
              .travel("0, 25, 50, 75, 100", 1)
              .judge(rows);
      assertThat(beside.verdict())
          .as(beside.reason())
          .isEqualTo(off == 0.0 ? Word.PASS : Word.FAIL);
    }
  }
}
