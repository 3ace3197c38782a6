package org.benchstroke.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.Test;

/** What is known by how the record was made: a stem that sticks, is slack, or is mounted askew. */
class TraverseMeasuresTest {
  private static Optional<Measure> measure(RecordFixture fixture, MeasureKind kind) {
    return fixture.wholeRun().judge().judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .findFirst();
  }

  private static Measure seat(RecordFixture.PositionAt stem) {
    RecordFixture fixture = new RecordFixture();
    fixture.angleReference = true;
    fixture.stem = stem;
    return measure(fixture, MeasureKind.SEAT_LAG).orElseThrow();
  }

  private static void assertSeat(Measure measure, double truth) {
    double half = measure.budget().orElseThrow().expand().half();
    assertThat(half).isBetween(0.2, 0.8);
    assertThat(measure.value().orElseThrow()).isCloseTo(truth, within(half));
  }

  @Test
  void stemThatSticksAtTheSeatTrailsByAsMuch() {
    assertSeat(seat((y, side) -> side > 0 && y < 3.8 ? 0.0 : y), 3.8);
    assertSeat(seat((y, side) -> side > 0 && y < 2.5 ? 0.0 : y), 2.5);
  }

  /** It is the same everywhere, and so no matter of the seat. */
  @Test
  void slackAndMountingCancel() {
    assertSeat(seat((y, side) -> y), 0.0);
    assertSeat(seat((y, side) -> y - side * 1.5), 0.0);
    assertSeat(seat((y, side) -> y + 6.0), 0.0);
  }

  @Test
  void withoutAReferenceThereIsNoSuchMeasure() {
    assertThat(measure(new RecordFixture(), MeasureKind.SEAT_LAG)).isEmpty();
  }

  @Test
  void steadyFeedbackHasNoNoise() {
    Measure noise = measure(new RecordFixture(), MeasureKind.FEEDBACK_NOISE).orElseThrow();
    double half = noise.budget().orElseThrow().expand().half();
    assertThat(noise.value().orElseThrow()).isBetween(0.0, half);
    assertThat(half).isLessThan(0.05);
  }

  @Test
  void aTestThatWasNotDoneSaysSo() {
    RecordFixture fixture = new RecordFixture();
    fixture.angleReference = true;
    JudgedRun run = fixture.judge();
    assertThat(run.judgements())
        .filteredOn(
            j ->
                j.measure().kind() == MeasureKind.SEAT_LAG
                    || j.measure().kind() == MeasureKind.FEEDBACK_NOISE)
        .hasSize(2)
        .allSatisfy(
            j -> {
              assertThat(j.measure().value()).isEmpty();
              assertThat(j.measure().note()).isEqualTo("the test was not completed");
            });
  }
}
