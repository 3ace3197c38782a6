package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.RunEnded;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Position inputs that convert in their own time, on a bench that reads every 0.1 s. */
class SlowConversionTest {
  private static final String STROKES = "[[test]]\ntest = \"stroke time\"\nrepeats = 1\n";

  private static VirtualBench bench(String unit, int conversionMillis, int meanOf, String tables) {
    return bench(unit, conversionMillis, meanOf, 0, tables);
  }

  private static VirtualBench bench(
      String unit, int conversionMillis, int meanOf, int unevenPercent, String tables) {
    String slow =
        """
        [[instrument_error]]
        on = "position input"
        role = "position transmitter"
        conversion_ms = %d
        mean_of = %d
        conversion_uneven_pct = %d
        """
            .formatted(conversionMillis, meanOf, unevenPercent);
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
    boolean told =
        run.sentences().stream().anyMatch(f -> f.contains("gets a new value only every"));
    assertThat(told).as("%s", run.sentences()).isEqualTo(conversionMillis >= 120);
  }

  /** Half, a third and two thirds of the bench's rate, each conversion early or late. */
  @ParameterizedTest
  @CsvSource({"150, 20", "200, 10", "200, 25", "300, 25", "500, 25"})
  void norIfItConvertsUnevenly(int conversionMillis, int unevenPercent) {
    VirtualBench bench = bench("healthy-b", conversionMillis, 1, unevenPercent, "").tests(STROKES);
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.verdict()).as(run.reason()).isNotEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.contains("gets a new value only every"));
  }

  @Test
  void itsRateIsNamedAndItsAgeIsInU() {
    JudgedRun run = bench("healthy-b", 200, 1, "").tests(STROKES).judge();
    assertThat(run.sentences())
        .anyMatch(f -> f.contains("gets a new value only every 0.20 s"))
        .anyMatch(f -> f.contains("Read it every 0.20 s (sample_period_ms in the bench file)"));
    Measure slow = opening(run);
    Measure usual = opening(VirtualBench.with("healthy-b").tests(STROKES).judge());
    assertThat(slow.budget().orElseThrow().expand().half())
        .isGreaterThan(usual.budget().orElseThrow().expand().half());
  }

  /** Another channel's rate is none of the position's. */
  @Test
  void aSlowAngleReferenceIsNoSlowPosition() {
    String slow =
        """
        [[instrument_error]]
        on = "angle reference"
        role = "angle reference"
        conversion_ms = 300
        """;
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("slack-after-sensor", slow)).tests(STROKES);
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(run.sentences()).noneMatch(f -> f.contains("gets a new value only every"));
  }

  /** A quick unit: two conversions are further apart than it can move between two readings. */
  @ParameterizedTest
  @CsvSource({"80, 0", "95, 0", "99, 0", "105, 0", "100, 20", "200, 20", "300, 20", "500, 20"})
  void norOnAQuickUnit(int conversionMillis, int unevenPercent) {
    VirtualBench bench =
        bench("healthy-b", conversionMillis, 1, unevenPercent, "[motor]\nstroke_90_deg_s = 6\n")
            .unitType(t -> t.replaceFirst("stroke_time_s = \\S+", "stroke_time_s = 6"))
            .tests(STROKES);
    bench.judge();
    assertThat(bench.result().how()).as(bench.result().reason()).isEqualTo(RunEnded.How.COMPLETE);
  }

  @ParameterizedTest
  @CsvSource({"30, 0", "200, 0", "200, 25", "400, 0", "400, 25"})
  void aDeadSpotStillEndsTheRun(int conversionMillis, int unevenPercent) {
    VirtualBench bench = bench("dead-spot", conversionMillis, 1, unevenPercent, "");
    JudgedRun run = bench.judge();
    assertThat(bench.result().reason()).startsWith("impossible slew");
    assertThat(run.passed()).isFalse();
  }

  /** Too late for a rate to be borne out: what stays doubtful is not believed. */
  @ParameterizedTest
  @ValueSource(ints = {3, 6, 9})
  void aJumpAfterOnePauseInTheLastStrokeEndsTheRun(int readings) {
    double late = lastAbove(15.0, VirtualBench.with("healthy-b").tests(STROKES).run());
    String held =
        Scripted.fault("position input", "freeze", Scripted.during(late, readings * 0.1 - 0.05));
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b", held)).tests(STROKES);
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
