package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.RecordedRun;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A record that was changed, with sound check values: one sign of a simulation is enough. */
class SimulationSignsTest {
  @TempDir static Path folder;
  private static RunRecord whole;

  @BeforeAll
  static void run() throws Exception {
    whole = RecordReader.read(VirtualBench.with("healthy-b").runInto(folder.resolve("r.jsonl")));
  }

  private static JudgedRun judged(String simulated, double timeScale, boolean inBenchFile)
      throws Exception {
    Event.Opened o = whole.opened();
    List<Event.SourceFile> files = new ArrayList<>(o.files());
    Event.SourceFile bench = files.get(0);
    String text = bench.text().replaceFirst("(?s)\n\\[simulation].*?(?=\n\\[|$)", "\n");
    assertThat(text).isNotEqualTo(bench.text());
    if (!inBenchFile) {
      files.set(0, new Event.SourceFile(bench.kind(), bench.name(), text));
    }
    List<Entry> entries = new ArrayList<>(whole.entries());
    Event changed =
        new Event.Opened(
            o.format(),
            o.tool(),
            simulated,
            timeScale,
            o.serial(),
            o.operator(),
            o.order(),
            o.utcOffset(),
            files);
    entries.set(0, new Entry(1, 0, entries.get(0).utc(), changed));
    return RecordedRun.judge(new RunRecord(entries, List.of()));
  }

  @Test
  void aSimulatedRunIsMarkedAndSound() throws Exception {
    JudgedRun sound = RecordedRun.judge(whole);
    assertThat(sound.simulated()).isTrue();
    assertThat(sound.passed()).isTrue();
  }

  @Test
  void oneSignMarksTheRunAndAContradictionNeverPasses() throws Exception {
    List<JudgedRun> changed =
        List.of(judged("", 1.0, true), judged(" ", 1.0, true), judged("a unit", 1.0, false));
    for (JudgedRun run : changed) {
      assertThat(run.simulated()).isTrue();
      assertThat(run.simulation()).isNotBlank();
      assertThat(run.passed()).isFalse();
      assertThat(run.reason()).contains("the record contradicts itself: its ");
      assertThat(new HtmlReport().html(new TwinAndCauses(run), java.util.Optional.empty()))
          .contains("class=\"watermark\"")
          .contains("SIMULATED: ");
    }
    JudgedRun fast = judged("", 20.0, false);
    assertThat(fast.simulated()).isTrue();
    assertThat(fast.reason()).contains("its clock did not run at real time");
  }

  @Test
  void aRecordWithoutAnySignIsOfARealUnit() throws Exception {
    JudgedRun real = judged("", 1.0, false);
    assertThat(real.simulated()).isFalse();
    assertThat(real.simulation()).isEmpty();
    assertThat(real.passed()).isTrue();
  }

  /** Before the first test begins, where no figure is taken from. */
  @Test
  void aReadingThatCanNotBeIsToldWhereverItStands() throws Exception {
    List<Entry> entries = new ArrayList<>(whole.entries());
    assertThat(RecordedRun.judge(whole).sentences()).noneMatch(f -> f.contains("can't be true"));
    Event stray = new Event.Sampled("position", 500.0, "%", "good", "500", 12_000_000, 14_000_000);
    entries.add(1, new Entry(2, 14_000_000, entries.get(0).utc(), stray));
    assertThat(RecordedRun.judge(new RunRecord(entries, List.of())).sentences())
        .anyMatch(
            f ->
                f.equals(
                    "One reading of the position can't be true: beyond -30 to 130 % of travel, the"
                        + " farthest 500.0 % at 0.0 s. Look at that instrument's connection and"
                        + " scale."));
  }
}
