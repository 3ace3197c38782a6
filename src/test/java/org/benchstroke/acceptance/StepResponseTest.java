package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** Steps of the setpoint on the simulated unit of 15 s, whose speed is that of its motor. */
class StepResponseTest {
  private static final String STEPS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [0.3, 10, 40]
      """;

  private static String limits(String unitType) {
    return unitType.replaceAll("(?s)\\[limits].*", "")
        + "[limits]\ndead_time_s = 0.5\nstep_overshoot_pct = 0.5\nsteady_state_error_pct = 1.0\n";
  }

  @Test
  void aUnitOfConstantSpeedShowsItself() {
    JudgedRun run =
        VirtualBench.with("healthy-b").tests(STEPS).unitType(StepResponseTest::limits).judge();

    for (String direction : List.of("up", "down")) {
      Measure t63 = measure(run, MeasureKind.STEP_T63, "40 % " + direction);
      Measure t86 = measure(run, MeasureKind.STEP_T86, "40 % " + direction);
      Measure dead = measure(run, MeasureKind.DEAD_TIME, "40 % " + direction);
      double delay = dead.value().orElseThrow();
      // 40 % at 6.67 %/s: 63.2 % of it in 3.8 s, 86.5 % in 5.2 s (arithmetic), a little more under
      // load.
      assertThat(t63.value().orElseThrow() - delay).isCloseTo(3.8, within(0.4));
      assertThat(t86.value().orElseThrow() - delay).isCloseTo(5.2, within(0.5));
      // 0.632 ÷ 0.865 = 0.731 for constant speed (arithmetic).
      assertThat((t63.value().get() - delay) / (t86.value().get() - delay))
          .isCloseTo(0.731, within(0.02));
      assertThat(t63.note()).startsWith("constant speed");
      assertThat(delay).isBetween(0.0, 0.5);
      assertThat(measure(run, MeasureKind.SLEW, "40 % " + direction).value().orElseThrow())
          .isCloseTo(6.6, within(0.5));
      assertThat(
              Math.abs(
                  measure(run, MeasureKind.STEADY_STATE_ERROR, "40 % " + direction)
                      .value()
                      .orElseThrow()))
          .isLessThan(0.3);
    }
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void aStepWithinTheDeadBandGivesNoResponseAndNoFault() {
    JudgedRun run =
        VirtualBench.with("healthy-b").tests(STEPS).unitType(StepResponseTest::limits).judge();
    assertThat(run.judgements())
        .filteredOn(j -> j.measure().place().words().equals("0.3 % up"))
        .extracting(j -> j.measure().kind())
        .containsExactly(MeasureKind.STEADY_STATE_ERROR);
  }

  @Test
  void aGapVoidsTheTestAndItIsBegunAgain() {
    String gap = Scripted.fault("position input", "late", "exchange = 1500\nlate_ms = 450");
    JudgedRun run =
        VirtualBench.with(VirtualBench.simulation("healthy-b", gap))
            .tests(STEPS)
            .unitType(StepResponseTest::limits)
            .judge();
    assertThat(run.tests()).anyMatch(t -> t.name().equals("step response") && t.attempts() == 2);
    assertThat(run.verdict()).isEqualTo(Word.PASS);
  }

  private static Measure measure(JudgedRun run, MeasureKind kind, String place) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.place().words().equals(place))
        .findFirst()
        .orElseThrow();
  }
}
