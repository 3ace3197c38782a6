package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.JudgedRun;
import org.junit.jupiter.api.Test;

/** Which two runs can't be told as one unit's as found and as left. */
class AdjustmentTest {
  @Test
  void anotherSerialNumberOrNoneIsAnotherUnit() {
    assertThat(obstacles(SampleRuns.withSerial("A-1"), SampleRuns.withSerial("A-2")))
        .anyMatch(o -> o.contains("\"A-1\" as found, \"A-2\" as left"));
    assertThat(obstacles(SampleRuns.withSerial(""), SampleRuns.withSerial("")))
        .anyMatch(o -> o.startsWith("not of one unit: serial number"));
    assertThat(obstacles(SampleRuns.withSerial("A-1"), SampleRuns.withSerial("A-1")))
        .noneMatch(o -> o.startsWith("not of one unit"));
  }

  @Test
  void aSimulatedAndARealRunAreNotOfOneUnit() {
    assertThat(obstacles(SampleRuns.spanFailWithStem(), SampleRuns.cleanPass()))
        .contains("one is of a simulated unit, the other is not");
  }

  @Test
  void aDamagedAndAnInterruptedRecordAreNamedBySide() {
    assertThat(obstacles(SampleRuns.interrupted(), SampleRuns.cleanPass()))
        .anyMatch(o -> o.startsWith("as found: the record is not as it was written: "));
    assertThat(obstacles(SampleRuns.cleanPass(), SampleRuns.interrupted()))
        .anyMatch(o -> o.startsWith("as left: the record is not as it was written: "));
  }

  /** Nothing of either run is lost by the pairing, and each measure stands once. */
  @Test
  void everyLimitedMeasureOfEitherRunHasItsRow() {
    JudgedRun found = SampleRuns.spanFailWithStem();
    JudgedRun left = SampleRuns.cleanPass();
    Adjustment adjustment = new Adjustment(found, left, "");
    var rows = adjustment.measures();
    for (JudgedRun run : List.of(found, left)) {
      run.judgements().stream()
          .filter(j -> j.limit().isPresent())
          .forEach(
              j ->
                  assertThat(
                          rows.stream()
                              .filter(
                                  r ->
                                      r.asFound().filter(j::equals).isPresent()
                                          || r.asLeft().filter(j::equals).isPresent()))
                      .hasSizeGreaterThanOrEqualTo(1));
    }
    long both =
        rows.stream().filter(r -> r.asFound().isPresent() && r.asLeft().isPresent()).count();
    assertThat(both).isGreaterThan(5);
    assertThat(adjustment.firstPasses()).isZero();
    assertThat(new Adjustment(left, left, "").firstPasses()).isEqualTo(left.passed() ? 1 : 0);
  }

  private static List<String> obstacles(JudgedRun asFound, JudgedRun asLeft) {
    return Adjustment.obstacles(asFound, asLeft);
  }
}
