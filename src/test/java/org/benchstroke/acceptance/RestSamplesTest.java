package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How many samples make a rest is a key of the unit type. Whatever it and the sample period are,
 * the noise of a motion is that of its rest: counted into the motion itself, U of a time would be a
 * hundred times too wide.
 */
class RestSamplesTest {
  private static final String TESTS =
      """
      [[test]]
      test = "stroke time"
      repeats = 2
      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [10]
      [[test]]
      test = "ramp"
      from_pct = 20
      to_pct = 80
      stroke_times = 5
      """;

  @ParameterizedTest
  @CsvSource({"5, 2.0", "10, 0.5", "10, 1.0", "20, 2.0", "20, 0.3", "60, 2.0"})
  void timesAreAsCertainWithAnyNumber(int samples, double window) {
    String practice =
        "\n[practice]\nrest_samples = %d\nrest_window_s = %s\nrest_window_off_times = 1\n"
            .formatted(samples, window);
    JudgedRun run =
        VirtualBench.with("healthy-b").tests(TESTS).unitType(text -> text + practice).judge();
    assertThat(half(run, MeasureKind.STROKE_TIME_OPENING)).isLessThan(0.03);
    assertThat(half(run, MeasureKind.STROKE_TIME_CLOSING)).isLessThan(0.03);
    // A window too short to show that the step came to its end gives no result.
    assertThat(half(run, MeasureKind.STEP_T63)).isLessThan(0.1);
    assertThat(half(run, MeasureKind.RAMP_LAG)).isLessThan(0.2);
    assertThat(run.judgements())
        .filteredOn(j -> j.measure().kind() == MeasureKind.STROKE_TIME_OPENING)
        .allSatisfy(j -> assertThat(j.word()).contains(Word.PASS));
  }

  private static double half(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .filter(m -> m.value().isPresent() || !kind.equals(MeasureKind.STEP_T63))
        .mapToDouble(m -> m.budget().orElseThrow().expand().half())
        .max()
        .orElse(0.0);
  }
}
