package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** Many strokes: a steady unit has no drift, and a gap costs the stroke that it lies in. */
class EnduranceTest {
  private static final String MANY =
      """
      [[test]]
      test = "endurance"
      cycles = 30
      """;

  private static String limits(String unitType) {
    return unitType.replaceAll("(?s)\\[limits].*", "")
        + "[limits]\nstroke_time_drift_s = 1.0\nend_position_drift_pct = 1.0\n";
  }

  @Test
  void aSteadyUnitDoesNotDrift() {
    JudgedRun run =
        VirtualBench.with("healthy-b").tests(MANY).unitType(EnduranceTest::limits).judge();
    for (Judgement judgement : run.judgements()) {
      Measure m = judgement.measure();
      double half = m.budget().orElseThrow().expand().half();
      assertThat(Math.abs(m.value().orElseThrow()))
          .as(m.kind() + m.place().words())
          .isLessThan(2.0 * half);
      assertThat(m.note()).isEqualTo("30 of 30 strokes whole");
    }
    assertThat(run.verdict()).as(run.reason()).isEqualTo(Word.PASS);
  }

  @Test
  void aGapCostsItsStrokeAndNoMore() {
    String gaps =
        IntStream.range(0, 10)
            .mapToObj(i -> "exchange = " + (90 + 1800 * i) + "\nlate_ms = 450")
            .map(keys -> Scripted.fault("position input", "late", keys))
            .collect(Collectors.joining());
    JudgedRun run =
        VirtualBench.with(VirtualBench.simulation("healthy-b", gaps))
            .tests(MANY)
            .unitType(EnduranceTest::limits)
            .judge();
    Measure opening =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.kind() == MeasureKind.STROKE_TIME_DRIFT)
            .findFirst()
            .orElseThrow();
    assertThat(run.tests().get(0).attempts()).isEqualTo(1);
    assertThat(opening.value()).isPresent();
    assertThat(opening.note())
        .isNotEqualTo("30 of 30 strokes whole")
        .endsWith("of 30 strokes whole");
  }
}
