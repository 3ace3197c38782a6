package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Elsewhere;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.SamplesCsv;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.Catalogue;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A file of a sound unit that passes, damaged in one way each: never a pass, and the damage named.
 */
class DamagedTraceTest {
  private static final String TESTS =
      """

      [[test]]
      test = "stroke time"
      repeats = 1

      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  private static RunRecord record;
  private static List<String> lines;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    record = VirtualBench.with("healthy-b").tests(TESTS).run();
    lines = SamplesCsv.text(record).lines().toList();
  }

  private JudgedRun judged(List<String> text, String... columns) throws IOException, FileMistakes {
    Path file = Files.writeString(folder.resolve("trace.csv"), String.join("\n", text));
    return VirtualBench.judge(
        Catalogue.imports().record(file, List.of(columns), RoundTripTest.given(record, true)));
  }

  private static List<String> with(int at, UnaryOperator<String> change) {
    List<String> changed = new ArrayList<>(lines);
    changed.set(at, change.apply(changed.get(at)));
    return changed;
  }

  /** A row in the middle of the travel error test that has a position. */
  private static int middle() {
    int at = lines.size() * 4 / 5;
    while (lines.get(at).split(",", -1)[2].isEmpty()) {
      at++;
    }
    return at;
  }

  private void neverPasses(List<String> text, String says) throws IOException, FileMistakes {
    JudgedRun run = judged(text);
    assertThat(run.passed()).as(run.reason()).isFalse();
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason() + run.judgements() + run.record().events(Event.Faulted.class).toList())
        .contains(says);
  }

  @Test
  void whole() throws IOException, FileMistakes {
    JudgedRun run = judged(lines);
    assertThat(run.passed()).as(run.reason()).isTrue();
  }

  /** Shorter than a gap: a stroke of 15.0 s would read 15.2 s with a U of 0.01 s. */
  @Test
  void aStepOfTheLoggersClockIsNamedAndNeverPasses() throws IOException, FileMistakes {
    for (double by : new double[] {0.19, 0.1}) {
      neverPasses(set(by), "the clock of the file seems to have been set");
    }
  }

  /** The clock is set once, in the middle of the first full stroke. */
  private static List<String> set(double by) {
    List<String> changed = new ArrayList<>(lines);
    boolean later = false;
    for (int i = 1; i < lines.size(); i++) {
      String[] cells = lines.get(i).split(",", -1);
      boolean opens = cells[1].startsWith("20") && !cells[2].isEmpty();
      later |= opens && Double.parseDouble(cells[2]) > 11.0;
      if (later) {
        double at = Double.parseDouble(cells[0]) + by;
        changed.set(i, "%.6f%s".formatted(at, lines.get(i).substring(cells[0].length())));
      }
    }
    return changed;
  }

  @Test
  void damageIsNamedAndNeverPasses() throws IOException, FileMistakes {
    int at = middle();
    List<String> gap = new ArrayList<>(lines);
    gap.subList(at, at + 25).clear();
    neverPasses(gap, "no position for");
    List<String> back = new ArrayList<>(lines);
    back.add(at + 1, back.remove(at));
    neverPasses(back, "the time goes back");
    neverPasses(with(at, l -> l.replaceFirst("^[^,]*,", ",")), "the time is missing");
    neverPasses(with(at, l -> l.replaceFirst(",[^,]*,", ",,")), "the setpoint is missing");
    List<String> twice = new ArrayList<>(lines);
    twice.add(at, twice.get(at));
    neverPasses(twice, "the time is that of the row before");
    neverPasses(lines.subList(0, at), "the file does not show every approach");
    List<String> coarse = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      if (i == 0 || i % 4 == 0) {
        coarse.add(lines.get(i));
      }
    }
    neverPasses(coarse, "if the logger reads no faster");
  }

  @Test
  void badCellsAreOneClearMessage() {
    int at = middle();
    assertThatThrownBy(() -> judged(with(at, l -> l.replaceFirst(",[^,]*,", ",x,"))))
        .isInstanceOf(FileMistakes.class)
        .hasMessageContaining("trace.csv:" + (at + 1) + ": column \"setpoint [mA]\": \"x\" is no")
        .hasMessageContaining("allowed are numbers with a decimal point");
    assertThatThrownBy(() -> judged(with(at, l -> l + ",7")))
        .hasMessageContaining("trace.csv:" + (at + 1) + ": has ");
    assertThatThrownBy(() -> judged(with(0, l -> l.replace(" [s]", ""))))
        .hasMessageContaining("trace.csv:1: column \"time\": states no unit; allowed for time is");
    assertThatThrownBy(() -> judged(with(0, l -> l.replace("position", "where"))))
        .hasMessageContaining("has no column for position");
    assertThatThrownBy(() -> judged(lines, "speed=time")).hasMessageContaining("WHAT is one of");
    assertThatThrownBy(() -> judged(List.of("time [s]"))).hasMessageContaining("holds no rows");
  }

  /**
   * A byte order mark, semicolons, decimal commas, other headers, and other words for the units.
   */
  @Test
  void otherDialectsGiveTheSameFigures() throws IOException, FileMistakes {
    List<String> other = new ArrayList<>();
    for (String line : lines) {
      other.add(line.replace(',', ';').replace('.', ','));
    }
    other.set(0, "\uFEFF\"Zeit\";Soll" + other.get(0).substring(other.get(0).indexOf(" [mA]")));
    assertThat(judged(other, "time=Zeit:s", "setpoint=Soll").judgements())
        .isEqualTo(judged(lines).judgements());
    // Two decimal marks in one file could be two things.
    int at = middle();
    other.set(at, other.get(at).replaceFirst(",", "."));
    assertThatThrownBy(() -> judged(other, "time=Zeit:s", "setpoint=Soll"))
        .hasMessageContaining("a decimal comma");
  }

  @Test
  void theSameFileGivesTheSameBytesEverywhere() throws IOException, FileMistakes {
    JudgedRun here = judged(lines);
    assertThat(Elsewhere.everywhere(() -> json(lines)))
        .hasSize(5)
        .containsOnly(new JsonReport().json(new TwinAndCauses(here)));
  }

  private String json(List<String> text) {
    try {
      return new JsonReport().json(new TwinAndCauses(judged(text)));
    } catch (IOException | FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  /** Digits that a logger cut off are in no budget. */
  @Test
  void roundedReadings() throws IOException, FileMistakes {
    List<String> rounded = new ArrayList<>();
    for (String line : lines) {
      List<String> cells = new ArrayList<>(List.of(line.split(",", -1)));
      if (!rounded.isEmpty() && !cells.get(2).isEmpty()) {
        double value = Double.parseDouble(cells.get(2));
        cells.set(2, Double.toString(Math.rint(value * 10.0) / 10.0));
      }
      rounded.add(String.join(",", cells));
    }
    neverPasses(rounded, "goes in steps of");
  }
}
