package org.benchstroke.tests.travel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.ReferenceData;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.RecordFixture;
import org.benchstroke.judge.Scope;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** Hysteresis + dead band is judged by adjacent passes, and its figure by means stands beside. */
class LagMeasuresTest {
  private static final MeasureKind BY_PASSES = MeasureKind.HYSTERESIS_PLUS_DEAD_BAND;
  private static final MeasureKind BY_MEANS = MeasureKind.HYSTERESIS_PLUS_DEAD_BAND_MEANS;

  /**
   * Source: ANSI/ISA-51.1-1979 (R1993), calibration table and the 0.22 % stated for it; confidence:
   * from memory. Its very first reading has no pass of its own here.
   */
  private static TravelReadings isa() {
    List<Position> points =
        IntStream.rangeClosed(0, 10).mapToObj(i -> Position.ofPercent(10.0 * i)).toList();
    List<RestReading> readings = new ArrayList<>();
    for (Map<String, String> row : ReferenceData.csv("isa-51.1-calibration-table.csv")) {
      double at = Double.parseDouble(row.get("input_percent_span"));
      double error = Double.parseDouble(row.get("error_percent_ideal_output_span"));
      Direction side = row.get("direction").equals("up") ? Direction.UP : Direction.DOWN;
      int cycle = Integer.parseInt(row.get("cycle"));
      readings.add(new RestReading(at, side, cycle, at + error, 0.002, 20));
    }
    TravelError spec = new TravelError(points, 3, Position.ofPercent(50.0), true);
    return new TravelReadings(Truth.FEEDBACK, spec, readings.subList(1, readings.size()), Map.of());
  }

  /** Tells how the unit scatters, and nothing else. */
  static TestJudge scattering(TravelReadings taken) {
    return new TestJudge() {
      @Override
      public Map<Truth, List<List<Double>>> alike() {
        return Map.of(taken.truth(), taken.alike());
      }

      @Override
      public TestResult result() {
        return TestResult.nothing();
      }
    };
  }

  @Test
  void theFigureOfTheStandardsExampleIsTheOneThatIsJudged() {
    RecordFixture fixture = new RecordFixture();
    TravelReadings taken = isa();
    JudgedBench judged =
        JudgedBench.of(fixture.bench(), fixture.unit(), new RunRecord(fixture.entries, List.of()))
            .knowing(List.of(scattering(taken)));
    List<Measure> measures = new LagMeasures(taken, judged.budget(Truth.FEEDBACK)).all(false);

    assertThat(measures).extracting(Measure::kind).containsExactly(BY_PASSES, BY_MEANS);
    Measure passes = measures.get(0);
    assertThat(passes.value().orElseThrow()).isCloseTo(0.22, within(1e-9));
    assertThat(passes.place().words()).isEqualTo("40 %");
    assertThat(passes.note()).startsWith("up in cycle 1, down in cycle 2; ");
    assertThat(measures.get(1).value().orElseThrow()).isCloseTo(0.20, within(1e-9));
    // The larger one favours what strays, and says so.
    assertThat(half(passes)).isGreaterThan(1.3 * half(measures.get(1)));
    assertThat(passes.scope()).isEqualTo(Scope.UNIT);
  }

  private static double half(Measure measure) {
    return measure.budget().orElseThrow().expand().half();
  }

  private static List<Judgement> of(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream().filter(j -> j.measure().kind() == kind).toList();
  }

  @Test
  void oneCycleGivesOneFigureThatSaysSo() {
    JudgedRun run = new RecordFixture().wholeRun().judge();
    assertThat(of(run, BY_MEANS)).isEmpty();
    assertThat(of(run, BY_PASSES))
        .singleElement()
        .satisfies(
            j -> assertThat(j.measure().note()).isEqualTo("one cycle: by means it is the same"));
  }

  @Test
  void aLimitByMeansIsHeldWithOneCycleToo() {
    RecordFixture fixture = new RecordFixture();
    fixture.limits =
        List.of(RecordFixture.symmetric(BY_MEANS, 0.05), RecordFixture.symmetric(BY_PASSES, 0.8));
    JudgedRun run = fixture.wholeRun().judge();
    assertThat(of(run, BY_MEANS))
        .singleElement()
        .satisfies(j -> assertThat(j.word()).contains(Word.FAIL));
    assertThat(of(run, BY_PASSES))
        .singleElement()
        .satisfies(j -> assertThat(j.word()).contains(Word.PASS));
    assertThat(run.passed()).isFalse();
  }

  @Test
  void onePassThatStraysFailsWhereItsMeanWouldPass() {
    RecordFixture fixture = new RecordFixture();
    fixture.cycles = 3;
    fixture.limits =
        List.of(RecordFixture.symmetric(BY_PASSES, 0.5), RecordFixture.symmetric(BY_MEANS, 0.5));
    int[] visits = new int[1];
    fixture.feedback =
        (setpoint, side) ->
            setpoint
                - 0.05 * side
                - (setpoint == 75.0 && side > 0.0 && ++visits[0] == 2 ? 0.9 : 0.0);
    JudgedRun run = fixture.wholeRun().judge();
    Judgement passes = of(run, BY_PASSES).get(0);
    assertThat(passes.measure().value().orElseThrow()).isCloseTo(1.0, within(0.02));
    assertThat(passes.word()).isNotEqualTo(Optional.of(Word.PASS));
    assertThat(of(run, BY_MEANS).get(0).measure().value().orElseThrow())
        .isCloseTo(0.4, within(0.02));
    assertThat(run.passed()).isFalse();
  }
}
