package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.core.uncertainty.Component;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * No judged figure has a U of 0, nor one below what a single bound of its budget leaves open: of
 * readings that are all alike, rounded, without noise, of which the bench file states no step.
 */
class UncertaintyFloorTest {
  /** 95 % of a rectangle; draws are good to 2 %. */
  private static final double SHARE = 0.95 * 0.97;

  @ParameterizedTest
  @CsvSource({
    "0.001, 0.003, 0, 1",
    "0.001, 0, 0, 1",
    "0.001, 0, 0.1, 1",
    "0.001, 0, 0.1, 3",
    "0, 0.003, 0, 1",
    "0, 0, 0, 3",
    "0, 0.003, 0.1, 1",
    "0, 0, 0.05, 3",
    "0.016, 0.003, 0.1, 2"
  })
  void aboveZeroAndAboveEachBound(double resolution, double wiggle, double step, int cycles) {
    RecordFixture fixture = new RecordFixture();
    fixture.resolution = resolution;
    fixture.wiggle = wiggle;
    fixture.step = step;
    fixture.cycles = cycles;
    fixture.angleReference = true;
    // Up and down alike: the largest difference is 0, and has no sign.
    fixture.feedback = (setpoint, side) -> setpoint;
    List<Measure> measured =
        fixture.wholeRun().judge().judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.value().isPresent())
            .toList();
    assertThat(measured).hasSizeGreaterThan(10);
    for (Measure m : measured) {
      double half = m.budget().orElseThrow().expand().half();
      double bound =
          m.budget().orElseThrow().components().stream()
              .filter(c -> c.evaluation() == Component.Evaluation.TYPE_B_RECTANGULAR)
              .mapToDouble(c -> c.known() * Math.abs(c.sensitivity()))
              .max()
              .orElse(0.0);
      assertThat(half).as("U of %s", m).isPositive().isGreaterThanOrEqualTo(SHARE * bound);
    }
    assertThat(line(measured, "position transmitter resolution").known())
        .isGreaterThanOrEqualTo(resolution > 0.0 ? resolution / 2.0 : 0.499 * step / 6.25);
  }

  private static Component line(List<Measure> measured, String source) {
    return measured.stream()
        .flatMap(m -> m.budget().orElseThrow().components().stream())
        .filter(c -> c.source().equals(source))
        .findFirst()
        .orElseThrow();
  }
}
