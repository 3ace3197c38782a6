package org.benchstroke.imported;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What was recorded and does not fit the scheme is evidence: it is judged, or nothing passes. */
class LeftOutTest {
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
    assertThat(run.findings()).contains("Columns that were not read: remark.");
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
        rows.add(row + "," + (row.startsWith("50,down") ? at + off : at));
      }
      JudgedRun run =
          readings()
              .bench("scatter_pct = 0.03", reference)
              .travel("0, 25, 50, 75, 100", 1)
              .judge(rows);
      assertThat(run.stemProven()).isTrue();
      assertThat(run.verdict()).as(run.reason()).isEqualTo(off == 0.0 ? Word.PASS : Word.FAIL);
    }
  }
}
