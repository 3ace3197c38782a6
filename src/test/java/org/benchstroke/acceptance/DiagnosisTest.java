package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.assertj.core.data.Offset;
import org.benchstroke.diagnosis.Cause;
import org.benchstroke.diagnosis.Diagnosis;
import org.benchstroke.diagnosis.Ranked;
import org.benchstroke.record.Entry;
import org.benchstroke.record.RunRecord;
import org.benchstroke.verdict.JudgedRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The units of simulators/ in a routine acceptance: the cause that was built in comes first. */
class DiagnosisTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static String tests() throws IOException {
    String text = Files.readString(ROUTINE);
    return text.substring(text.indexOf("[[test]]"));
  }

  @ParameterizedTest
  @CsvSource({
    "zero-shift, ZERO_SHIFT",
    "span-error, SPAN",
    "slack-after-sensor, SLACK_AFTER_SENSOR",
    "sticky-seat, STICKY_SEAT",
    "dead-spot, DEAD_SPOT",
    "dead-band-too-small, DEAD_BAND_TOO_SMALL",
    "long-coast, LONG_COAST",
    "ground-offset, GROUND_OFFSET",
    "swapped-leads, MOTOR_AND_SENSOR_OPPOSED",
    "auxiliary-trails, AUXILIARY_TRAILS",
    "quadrant-off, QUADRANT_OFF",
    "bent-linkage, NON_LINEAR_LINKAGE",
    "cam-set-short, CAM_SET_SHORT",
    "wrong-fail-action, WRONG_FAIL_ACTION",
    "reversed-action, REVERSED_ACTION",
    "worn-sensor, WORN_SENSOR",
    "sticking-stem, STICTION",
    "backlash-before-sensor, BACKLASH_BEFORE_SENSOR"
  })
  void theBuiltInCauseComesFirst(String unit, Cause cause) throws IOException {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with(unit, BENCH).tests(tests()).judge());
    assertThat(diagnosis.first().cause()).as(diagnosis.toString()).isEqualTo(cause);
    assertThat(diagnosis.lines().get(0)).containsIgnoringCase("most like: " + cause.title());
    assertThat(diagnosis.ranked().stream().mapToDouble(Ranked::probability).sum())
        .isCloseTo(1.0, Offset.offset(1e-9));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void ofASoundUnitNothingStandsOut(long seed) throws IOException {
    VirtualBench bench =
        VirtualBench.with(VirtualBench.seeded(VirtualBench.simulation("healthy-b"), seed), BENCH);
    Diagnosis diagnosis = Diagnosis.of(bench.tests(tests()).judge());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.NOTHING_STANDS_OUT);
    assertThat(diagnosis.first().cause()).isEqualTo(Cause.HEALTHY);
    assertThat(diagnosis.lines().get(0)).startsWith("Nothing stands out");
  }

  /** Slow by a weak supply: no sign for it is looked for yet, and that is said. */
  @Test
  void aFailureWithoutAKnownSignIsNeverCalledSound() throws IOException {
    Diagnosis diagnosis =
        Diagnosis.of(VirtualBench.with("undervoltage", BENCH).tests(tests()).judge());
    assertThat(diagnosis.outcome()).isNotEqualTo(Diagnosis.Outcome.NOTHING_STANDS_OUT);
    assertThat(diagnosis.lines().get(0)).doesNotStartWith("Nothing stands out");
  }

  /** Slack hides behind a clean feedback where nobody looks at the stem: no evidence, no guess. */
  @Test
  void whatTheBenchCantShowIsNoEvidence() {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with("healthy-b").judge());
    assertThat(diagnosis.evidence()).noneMatch(e -> e.sign().name().startsWith("STEM"));
  }

  /** A record that ends anywhere, as after a kill: always a few lines, never all clear. */
  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "slack-after-sensor", "dead-band-too-small"})
  void aRecordThatEndsAnywhereHasLines(String unit) throws IOException {
    List<Entry> entries = VirtualBench.with(unit, BENCH).tests(tests()).run().entries();
    for (int end = 60; end < entries.size(); end += entries.size() / 40) {
      JudgedRun cut = VirtualBench.judge(new RunRecord(entries.subList(0, end), List.of()));
      Diagnosis diagnosis = Diagnosis.of(cut);
      assertThat(diagnosis.lines()).as("%s lines", end).isNotEmpty();
      assertThat(diagnosis.outcome()).as("%s lines", end).isEqualTo(Diagnosis.Outcome.NOT_CLOSED);
    }
  }
}
