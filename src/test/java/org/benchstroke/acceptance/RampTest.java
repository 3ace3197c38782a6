package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** A slow ramp of the setpoint, there and back. */
class RampTest {
  private static final String RAMP =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "ramp"
      from_pct = 20
      to_pct = 80
      stroke_times = 6
      """;

  private static String limits(String unitType) {
    return unitType.replaceAll("(?s)\\[limits].*", "")
        + "[limits]\nramp_residual_pct = 1.0\nramp_lag_s = 2.0\n";
  }

  /**
   * A three-position unit follows in moves: it starts when the setpoint is h_on ahead, so it is
   * never further behind than that and the noise, nor further from its mean line than D and the
   * noise.
   */
  @Test
  void theResidualIsThatOfTheDeadBand() {
    JudgedRun run = VirtualBench.with("healthy-b").tests(RAMP).unitType(RampTest::limits).judge();
    for (String place : new String[] {"up", "down"}) {
      // h_on is 0.5 %, and 60 % in 54 s are 1.1 %/s: behind by 0.45 s at most, by half of it in the
      // mean.
      assertThat(value(run, MeasureKind.RAMP_LAG, place)).isBetween(0.05, 0.6);
      assertThat(value(run, MeasureKind.RAMP_RESIDUAL, place)).isBetween(0.1, 0.6);
      assertThat(value(run, MeasureKind.RAMP_STARTS, place)).isGreaterThan(20.0);
    }
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void aWideDeadBandLeavesMore() {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    Simulation wide =
        healthy.withUnit(
            healthy.parameters().with(healthy.parameters().control().withThresholds(2.5, 0.4)));
    JudgedRun run = VirtualBench.with(wide).tests(RAMP).unitType(RampTest::limits).judge();
    assertThat(value(run, MeasureKind.RAMP_RESIDUAL, "up")).isGreaterThan(0.9);
    assertThat(run.verdict()).isNotEqualTo(Word.PASS);
  }

  @Test
  void aDeadSpotOfTheSensorVoidsTheRun() {
    Simulation healthy = VirtualBench.simulation("healthy-b");
    Simulation worn =
        healthy.withUnit(
            healthy.parameters().with(healthy.parameters().sensor().withDeadSpot(62, 64)));
    JudgedRun run = VirtualBench.with(worn).tests(RAMP).unitType(RampTest::limits).judge();
    assertThat(run.passed()).isFalse();
    assertThat(run.verdict()).isEqualTo(Word.NO_RESULT);
    assertThat(run.reason()).contains("impossible slew");
  }

  private static double value(JudgedRun run, MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .map(Measure::value)
        .findFirst()
        .orElseThrow()
        .orElseThrow();
  }
}
