package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.bench.MeasureKind;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.RunEnded;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Position inputs that convert in their own time, on a bench that reads every 0.1 s. */
class SlowConversionTest {
  private static VirtualBench bench(String unit, int conversionMillis, int meanOf, String tables) {
    String slow =
        """
        [[instrument_error]]
        on = "position input"
        role = "position transmitter"
        conversion_ms = %d
        mean_of = %d
        """
            .formatted(conversionMillis, meanOf);
    return VirtualBench.with(VirtualBench.simulation(unit, tables + slow));
  }

  @ParameterizedTest
  @CsvSource({
    "30, 1", "100, 1", "130, 1", "150, 1", "200, 1", "250, 1", "400, 1", "800, 1", "20, 10",
    "200, 4"
  })
  void noneOfThemIsADeadSpot(int conversionMillis, int meanOf) {
    VirtualBench bench = bench("healthy-b", conversionMillis, meanOf, "");
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.verdict()).as(run.reason()).isNotEqualTo(Word.FAIL);
    boolean told = run.findings().stream().anyMatch(f -> f.contains("gets a new value only every"));
    assertThat(told).as("%s", run.findings()).isEqualTo(conversionMillis >= 120);
  }

  @Test
  void itsRateIsNamedAndItsAgeIsInU() {
    JudgedRun run = bench("healthy-b", 200, 1, "").judge();
    assertThat(run.findings())
        .anyMatch(f -> f.contains("every 0.20 s, though it is read every 0.1 s"));
    Measure slow = opening(run);
    Measure usual = opening(VirtualBench.with("healthy-b").judge());
    assertThat(slow.budget().orElseThrow().expand().half())
        .isGreaterThan(usual.budget().orElseThrow().expand().half());
  }

  /** A quick unit: two conversions are further apart than it can move between two readings. */
  @ParameterizedTest
  @ValueSource(ints = {200, 300, 500})
  void norOnAQuickUnit(int conversionMillis) {
    VirtualBench bench =
        bench("healthy-b", conversionMillis, 1, "[motor]\nstroke_90_deg_s = 6\n")
            .unitType(t -> t.replaceFirst("stroke_time_s = \\S+", "stroke_time_s = 6"));
    bench.judge();
    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
  }

  @ParameterizedTest
  @ValueSource(ints = {30, 200, 400})
  void aDeadSpotStillEndsTheRun(int conversionMillis) {
    VirtualBench bench = bench("dead-spot", conversionMillis, 1, "");
    JudgedRun run = bench.judge();
    assertThat(bench.result().reason()).startsWith("impossible slew");
    assertThat(run.passed()).isFalse();
  }

  /** Too late for a rate to be borne out: what stays doubtful is not believed. */
  @ParameterizedTest
  @ValueSource(ints = {3, 6, 9})
  void aJumpAfterOnePauseInTheLastStrokeEndsTheRun(int readings) {
    String strokes = "[[test]]\ntest = \"stroke time\"\nrepeats = 1\n";
    double late = lastAbove(15.0, VirtualBench.with("healthy-b").tests(strokes).run());
    String held =
        Scripted.fault("position input", "freeze", Scripted.during(late, readings * 0.1 - 0.05));
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b", held)).tests(strokes);
    JudgedRun run = bench.judge();
    assertThat(bench.result().reason()).startsWith("impossible slew");
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(run.passed()).isFalse();
  }

  /** When the position was last above a value, s of the bench. */
  private static double lastAbove(double percent, RunRecord record) {
    return record.entries().stream()
            .filter(
                entry ->
                    entry.event() instanceof Event.Sampled s
                        && s.channel().equals("position")
                        && s.value() > percent)
            .mapToLong(Entry::nanos)
            .max()
            .orElseThrow()
        / 1e9;
  }

  private static Measure opening(JudgedRun run) {
    return run.judgements().stream()
        .map(j -> j.measure())
        .filter(m -> m.kind() == MeasureKind.STROKE_TIME_OPENING)
        .findFirst()
        .orElseThrow();
  }
}
