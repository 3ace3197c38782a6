package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.DoubleStream;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.run.RunEnded;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/**
 * Whole runs against simulated units. What each must show was computed beforehand by simulations
 * outside this project (own simulation, no outside source).
 */
class ScenarioTest {

  @Test
  void aHealthyUnitPasses() {
    JudgedRun run = VirtualBench.with("healthy-b").judge();

    assertThat(errors(run)).allSatisfy(e -> assertThat(Math.abs(e)).isLessThanOrEqualTo(0.10));
    assertThat(Math.abs(value(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK)))
        .isLessThanOrEqualTo(0.15);
    assertThat(run.verdict()).isEqualTo(Word.PASS);
    assertThat(run.passed()).isTrue();
    assertThat(run.stemProven()).isFalse();
  }

  @Test
  void strokeTimesAreThoseOfTheUnit() {
    JudgedRun run = VirtualBench.with("healthy-b").judge();

    // Nominal time of the simulated unit: 15 s, loaded a little less quick.
    assertThat(value(run, MeasureKind.STROKE_TIME_OPENING, Truth.CLOCK))
        .isCloseTo(15.0, within(1.0));
    assertThat(value(run, MeasureKind.STROKE_TIME_CLOSING, Truth.CLOCK))
        .isCloseTo(15.0, within(1.0));
  }

  @Test
  void slackAfterTheSensorIsSeenByTheAngleReferenceOnly() {
    JudgedRun run = VirtualBench.with("slack-after-sensor").judge();

    double feedback = value(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK);
    double stem = value(run, MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.STEM);
    assertThat(Math.abs(feedback)).isLessThanOrEqualTo(0.15);
    // 1 % of slack; it comes to rest within 0.1 % of its setpoint from either side.
    assertThat(Math.abs(stem)).isBetween(0.90, 1.15);
    assertThat(run.verdict()).isNotEqualTo(Word.PASS);
    assertThat(run.sentences()).anyMatch(f -> f.contains("slack after the sensor"));
  }

  @Test
  void withoutAnAngleReferenceTheSameSlackPassesWithTheStemNotProven() {
    var slack = VirtualBench.simulation("slack-after-sensor");
    var blind = slack.withAngleReference(false);

    JudgedRun run = VirtualBench.with(blind).judge();

    assertThat(run.verdict()).isEqualTo(Word.PASS);
    assertThat(run.stemProven()).isFalse();
    assertThat(run.sentences()).anyMatch(f -> f.startsWith("Stem not proven"));
  }

  @Test
  void aLoopResistanceThatIsTooHighBlocksMotionAndIsNamed() {
    VirtualBench bench = VirtualBench.with("loop-resistance-too-high");
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.PREFLIGHT_FAILED);
    assertThat(bench.result().reason()).contains("loop resistance is too high").contains("12 V");
    double found =
        run.record()
            .events(Event.Checked.class)
            .filter(c -> c.check().equals("loop at 20 mA"))
            .mapToDouble(c -> c.values().get("found_milliamps"))
            .sum();
    // 12 V / 700 Ω = 17.143 mA: Ohm's law.
    assertThat(found).isCloseTo(17.14, within(0.02));
    assertThat(run.record().events(Event.Powered.class).filter(Event.Powered::on)).isEmpty();
    assertThat(run.record().events(Event.Commanded.class)).isEmpty();
    assertThat(run.passed()).isFalse();
  }

  @Test
  void aShiftedZeroIsAConstantError() {
    JudgedRun run = VirtualBench.with("zero-shift").judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.contains("the zero is shifted"));
  }

  @Test
  void aSpanErrorGrowsWithTheSetpoint() {
    JudgedRun run = VirtualBench.with("span-error").judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.contains("span"));
  }

  @Test
  void aCamThatIsSetShortStopsTheUnitBeforeTheEnd() {
    JudgedRun run = VirtualBench.with("cam-set-short").judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.contains("open switch made"));
  }

  @Test
  void aReversedActionEndsTheRunAndFails() {
    VirtualBench bench = VirtualBench.with("reversed-action");
    JudgedRun run = bench.judge();
    assertThat(bench.result().how()).isEqualTo(RunEnded.How.ACTION_REVERSED);
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences()).anyMatch(f -> f.contains("reversed"));
  }

  @Test
  void aWrongFailActionFails() {
    JudgedRun run = VirtualBench.with("wrong-fail-action").judge();
    assertThat(run.verdict()).isEqualTo(Word.FAIL);
    assertThat(run.sentences())
        .anyMatch(f -> f.toLowerCase(java.util.Locale.ROOT).contains("loss"));
  }

  private static DoubleStream errors(JudgedRun run) {
    return run.feedback().stream().mapToDouble(RestReading::errorPercent);
  }

  private static double value(JudgedRun run, MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth)
        .findFirst()
        .orElseThrow()
        .value()
        .orElseThrow();
  }
}
