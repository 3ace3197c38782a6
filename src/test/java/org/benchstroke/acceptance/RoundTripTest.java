package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.imported.ImportSetup;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.SamplesCsv;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A run, its samples as a file of others, and that file judged: the same figures. */
class RoundTripTest {
  private static final String TESTS =
      """

      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "stroke time"
      repeats = 2

      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 2
      """;

  @TempDir Path folder;

  /** The record's own files, with or without its procedure. */
  static ImportSetup given(RunRecord record, boolean procedure) {
    List<Event.SourceFile> files = record.opened().files();
    try {
      return new ImportSetup(
          BenchFileReader.read(TomlDocument.parse("bench", files.get(0).text())),
          files.get(0),
          UnitTypeReader.read(TomlDocument.parse("unit type", files.get(1).text())),
          files.get(1),
          procedure
              ? Optional.of(
                  ProcedureReader.read(TomlDocument.parse("procedure", files.get(2).text())))
              : Optional.empty(),
          procedure ? Optional.of(files.get(2)) : Optional.empty(),
          record.opened().serial(),
          "virtual",
          "none",
          Optional.of(java.time.LocalDate.parse("2026-06-01")),
          "benchstroke test");
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  private JudgedRun again(RunRecord record, boolean procedure) throws IOException, FileMistakes {
    Path file = Files.writeString(folder.resolve("trace.csv"), SamplesCsv.text(record));
    return VirtualBench.judge(
        Catalogue.imports().record(file, List.of(), given(record, procedure)));
  }

  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "span-error", "zero-shift"})
  void theFiguresAreTheSame(String unit) throws IOException, FileMistakes {
    RunRecord record = VirtualBench.with(unit).tests(TESTS).run();
    JudgedRun first = VirtualBench.judge(record);
    JudgedRun second = again(record, true);
    assertThat(second.verdict()).as(notes(second)).isEqualTo(first.verdict());
    assertThat(second.tests()).isEqualTo(first.tests());
    same(first, second);
  }

  /** Why, so that a failure says it. */
  private static String notes(JudgedRun run) {
    return run.reason() + run.judgements().stream().map(j -> j.measure().note()).toList();
  }

  private static void same(JudgedRun first, JudgedRun second) {
    assertThat(second.judgements()).hasSameSizeAs(first.judgements());
    for (int i = 0; i < first.judgements().size(); i++) {
      Judgement a = first.judgements().get(i);
      Judgement b = second.judgements().get(i);
      String what = a.measure().kind() + " " + a.measure().place();
      assertThat(b.measure().place().words()).as(what).isEqualTo(a.measure().place().words());
      assertThat(b.word()).as(what).isEqualTo(a.word());
      assertThat(b.measure().value().isPresent())
          .as(what)
          .isEqualTo(a.measure().value().isPresent());
      if (a.measure().value().isPresent()) {
        assertThat(b.measure().value().get())
            .as(what)
            .isCloseTo(a.measure().value().get(), within(1.0e-6));
      }
    }
  }

  @Test
  void withoutAProcedureWhatTheFileShowsIsJudged() throws IOException, FileMistakes {
    RunRecord record = VirtualBench.with("healthy-b").tests(TESTS).run();
    JudgedRun found = again(record, false);
    assertThat(found.verdict()).as(found.reason()).isEqualTo(Word.NO_RESULT);
    assertThat(found.reason()).startsWith("Not judged: no order was given");
    assertThat(found.judgements().stream().flatMap(j -> j.word().stream()))
        .isNotEmpty()
        .containsOnly(Word.PASS);
    assertThat(found.sentences())
        .anyMatch(f -> f.startsWith("Recorded elsewhere, not by this program: trace.csv"))
        .anyMatch(
            f ->
                f.equals(
                    "No procedure was given. Judged was what the file shows: stroke time, 3 each"
                        + " way; travel error at 0, 25, 50, 75, 100 %, cycles: 2."));
  }

  private static final String TRACED =
      """

      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "dead band"
      at_pct = [50]
      step_pct = 0.1
      most_pct = 3
      cycles = 2

      [[test]]
      test = "resolution"
      at_pct = [50]
      step_pct = 0.1
      most_pct = 3
      cycles = 2

      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [2, 10]

      [[test]]
      test = "ramp"
      from_pct = 20
      to_pct = 80
      stroke_times = 4

      [[test]]
      test = "hunting"
      points_pct = [25, 75]
      hold_s = 20

      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["low", "lost", "open loop"]

      [[test]]
      test = "endurance"
      cycles = 10
      """;

  /** What a trace shows beside strokes and travel: each figure and each order found again. */
  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "wrong-fail-action"})
  void whatElseATraceShowsIsFound(String unit) throws IOException, FileMistakes {
    RunRecord record = VirtualBench.with(unit).tests(TRACED).run();
    JudgedRun first = VirtualBench.judge(record);
    JudgedRun second = again(record, true);
    assertThat(second.tests()).as(notes(second)).isEqualTo(first.tests());
    assertThat(second.verdict()).as(second.orders().toString()).isEqualTo(first.verdict());
    assertThat(second.orders())
        .extracting(o -> o.what() + ": " + o.word())
        .isEqualTo(first.orders().stream().map(o -> o.what() + ": " + o.word()).toList());
    for (int i = 0; i < first.judgements().size(); i++) {
      Measure a = first.judgements().get(i).measure();
      Measure b = second.judgements().get(i).measure();
      String what = a.kind() + " " + a.place() + ": " + b.note();
      assertThat(b.place().words()).as(what).isEqualTo(a.place().words());
      assertThat(b.value().isPresent()).as(what).isEqualTo(a.value().isPresent());
      if (a.value().isPresent()) {
        // Where it set out for a hold or a ramp is not in the file: within about U of each other.
        double half = a.budget().orElseThrow().expand().half();
        // A ramp of the file begins a sample later and ends a step earlier: two starts in twenty.
        double apart = a.kind() == MeasureKind.RAMP_STARTS ? 0.1 * a.value().get() : half;
        assertThat(b.value().get()).as(what).isCloseTo(a.value().get(), within(1.1 * apart));
      }
    }
  }
}
