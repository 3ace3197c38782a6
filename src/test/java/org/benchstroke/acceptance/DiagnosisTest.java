package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.diagnosis.Cause;
import org.benchstroke.diagnosis.Diagnosis;
import org.benchstroke.diagnosis.Evidence;
import org.benchstroke.diagnosis.Ranked;
import org.benchstroke.diagnosis.Sign;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.benchstroke.verdict.JudgedRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What a diagnosis says of sound units, of records that end early and of what a bench can't show.
 * That the cause that was built in comes first, {@link FaultCollectionTest} looks at.
 */
class DiagnosisTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static String tests() throws IOException {
    String text = Files.readString(ROUTINE);
    return text.substring(text.indexOf("[[test]]"));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void ofASoundUnitNothingStandsOut(long seed) throws IOException {
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b").withSeed(seed), BENCH);
    Diagnosis diagnosis = Diagnosis.of(bench.tests(tests()).judge());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.NOTHING_STANDS_OUT);
    assertThat(diagnosis.first().cause()).isEqualTo(Cause.HEALTHY);
    assertThat(diagnosis.lines().get(0)).startsWith("Nothing stands out");
  }

  /** Slack hides behind a clean feedback where nobody looks at the stem: no evidence, no guess. */
  @Test
  void whatTheBenchCantShowIsNoEvidence() {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with("healthy-b").judge());
    assertThat(diagnosis.evidence()).noneMatch(e -> e.sign().name().startsWith("STEM"));
  }

  /** Three points between the ends, and neither hunting nor steps. */
  @ParameterizedTest
  @CsvSource({
    "span-error, SPAN, by -[12]\\.\\d\\d ± 0\\.\\d\\d %",
    "ground-offset, GROUND_OFFSET, by -1\\.\\d\\d ± 0\\.\\d\\d %",
    "slack-after-sensor, SLACK_AFTER_SENSOR, about 1\\.0 % of travel",
    "long-coast, LONG_COAST, goes past by 0\\.4\\d %",
    "thermal-drift, THERMAL_DRIFT, it went by \\+1\\.\\d %"
  })
  void theShortAcceptanceTellsTheCause(String unit, Cause cause, String amount) {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with(unit).judge());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.ONE_CAUSE);
    assertThat(diagnosis.first().cause()).as("%s", diagnosis.lines()).isEqualTo(cause);
    assertThat(diagnosis.advice()).containsPattern(amount);
  }

  /** Without an angle reference a shifted zero can't be told from an earth: both are named. */
  @Test
  void theShortAcceptanceTellsAZeroAsFarAsItsBenchCan() {
    Diagnosis bare = Diagnosis.of(VirtualBench.with("zero-shift").judge());
    assertThat(bare.outcome()).isEqualTo(Diagnosis.Outcome.TWO_CAUSES);
    assertThat(bare.ranked().subList(0, 2))
        .extracting(Ranked::cause)
        .containsExactlyInAnyOrder(Cause.ZERO_SHIFT, Cause.GROUND_OFFSET);
    assertThat(bare.advice())
        .startsWith("adjust nothing before they are told apart")
        .contains("zero shift: set the zero", "ground loop: use an isolator");
    Diagnosis whole = Diagnosis.of(VirtualBench.with("zero-shift", BENCH).judge());
    assertThat(whole.outcome()).isEqualTo(Diagnosis.Outcome.ONE_CAUSE);
    assertThat(whole.first().cause()).isEqualTo(Cause.ZERO_SHIFT);
  }

  /** It warms up in the strokes and cools in the holds; first it stood closed when it was cool. */
  @Test
  void theRoutineAcceptanceTellsADriftFromAZeroAndFromTheSeat() throws IOException {
    Diagnosis diagnosis =
        Diagnosis.of(VirtualBench.with("thermal-drift", BENCH).tests(tests()).judge());
    assertThat(diagnosis.first().cause()).isEqualTo(Cause.THERMAL_DRIFT);
    assertThat(diagnosis.evidence())
        .filteredOn(Evidence::seen)
        .extracting(Evidence::sign)
        .containsExactlyInAnyOrder(Sign.CONSTANT_ERROR, Sign.ERROR_DRIFTS);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void theShortAcceptanceOfASoundUnitShowsNone(long seed) {
    VirtualBench bench =
        VirtualBench.with(VirtualBench.simulation("healthy-b").withSeed(seed), BENCH);
    Diagnosis diagnosis = Diagnosis.of(bench.judge());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.NOTHING_STANDS_OUT);
    assertThat(diagnosis.evidence()).anyMatch(e -> e.sign() == Sign.GROWING_ERROR);
  }

  /** An S of the stem is a slope there: no cause that has nothing to do with it is named for it. */
  @Test
  void whatThreePointsCantTellIsNoEvidence() {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with("bent-linkage", BENCH).judge());
    assertThat(diagnosis.evidence())
        .extracting(Evidence::sign)
        .contains(Sign.STEM_LAGS)
        .doesNotContain(Sign.STEM_S_SHAPED, Sign.STEM_OFF_AT_SEAT);
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.UNKNOWN);
  }

  private static Diagnosis ofARamp(String unit) {
    String ramp =
        """
        [[test]]
        test = "exercise"
        strokes = 1

        [[test]]
        test = "ramp"
        from_pct = 0
        to_pct = 100
        stroke_times = 5
        """;
    return Diagnosis.of(VirtualBench.with(unit, BENCH).tests(ramp).judge());
  }

  /** The unit never rests between the ends: where it is late by the same both ways, it is right. */
  @ParameterizedTest
  @CsvSource({
    "zero-shift, ZERO_SHIFT, by -1\\.\\d\\d ± 0\\.\\d\\d %",
    "span-error, SPAN, by -[12]\\.\\d\\d ± 0\\.\\d\\d %",
    "ground-offset, GROUND_OFFSET, by -1\\.\\d\\d ± 0\\.\\d\\d %",
    "slack-after-sensor, SLACK_AFTER_SENSOR, about [01]\\.\\d % of travel",
    "sticking-stem, STICTION, about 1\\.\\d % of travel",
    "bent-linkage, NON_LINEAR_LINKAGE, its S is \\+2\\.\\d %",
    "thermal-drift, THERMAL_DRIFT, it went by \\+[12]\\.\\d %"
  })
  void aSlowRampAloneTellsTheCause(String unit, Cause cause, String amount) {
    Diagnosis diagnosis = ofARamp(unit);
    assertThat(diagnosis.first().cause()).as("%s", diagnosis.lines()).isEqualTo(cause);
    assertThat(diagnosis.advice()).containsPattern(amount);
  }

  /** It is late on a ramp like any other, and a wide dead band stands short of an end. */
  @ParameterizedTest
  @ValueSource(strings = {"healthy-b", "long-coast"})
  void aRampDoesNotTellWhereAUnitRests(String unit) {
    Diagnosis diagnosis = ofARamp(unit);
    assertThat(diagnosis.evidence())
        .extracting(Evidence::sign)
        .contains(Sign.CONSTANT_ERROR)
        .doesNotContain(Sign.GOES_PAST, Sign.SHORT_SWITCH_OPEN, Sign.NO_SWITCH_BEYOND);
    assertThat(diagnosis.evidence()).noneMatch(Evidence::seen);
  }

  /**
   * Sent beyond its end such a unit stands short of its switch: that is its controller, no stop.
   */
  @ParameterizedTest
  @ValueSource(strings = {"routine-acceptance", "dead-band", "fault-finding"})
  void aWideDeadBandIsNamedAndNoStop(String procedure) throws IOException {
    String text = Files.readString(ROUTINE.resolveSibling(procedure + ".toml"));
    VirtualBench bench =
        VirtualBench.with(
            VirtualBench.simulation("healthy-b", "[control]\nstart_pct = 2.0\n"), BENCH);
    Diagnosis diagnosis =
        Diagnosis.of(bench.tests(text.substring(text.indexOf("[[test]]"))).judge());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.ONE_CAUSE);
    assertThat(diagnosis.first().cause()).isEqualTo(Cause.DEAD_BAND_TOO_LARGE);
    assertThat(diagnosis.lines().get(1))
        .containsPattern("twice its setting \\((1\\.9|2\\.0).* %, set to 0\\.50 %\\)");
  }

  /** A coast that needs a wide dead band is named for the coast; a sound unit's is its setting. */
  @Test
  void aDeadBandAloneIsToldFromALongCoast() throws IOException {
    String text = Files.readString(ROUTINE.resolveSibling("dead-band.toml"));
    String tests = text.substring(text.indexOf("[[test]]"));
    Diagnosis coast = Diagnosis.of(VirtualBench.with("long-coast", BENCH).tests(tests).judge());
    assertThat(coast.first().cause()).isEqualTo(Cause.LONG_COAST);
    assertThat(coast.evidence())
        .filteredOn(Evidence::seen)
        .extracting(Evidence::sign)
        .containsExactlyInAnyOrder(Sign.GOES_PAST, Sign.DEAD_BAND_WIDE);
    Diagnosis sound = Diagnosis.of(VirtualBench.with("healthy-b", BENCH).tests(tests).judge());
    assertThat(sound.evidence())
        .anyMatch(e -> e.sign() == Sign.DEAD_BAND_WIDE)
        .noneMatch(Evidence::seen);
  }

  private static Diagnosis stoppedAt(String unit, int setpoints) throws IOException {
    VirtualBench bench = VirtualBench.with(unit, BENCH).tests(tests());
    Spectator stops =
        new Spectator() {
          private int sent;

          @Override
          public void happened(Entry entry) {
            sent += entry.event() instanceof Event.Commanded ? 1 : 0;
            if (sent == setpoints) {
              bench.stop().stop("stopped by the test");
            }
          }

          @Override
          public void progressed(Progress progress) {}
        };
    return Diagnosis.of(bench.watchedBy(stops).judge());
  }

  /** A few strokes show one sign or none: no lead is swapped for five per cent. */
  @ParameterizedTest
  @CsvSource({
    "zero-shift, seen: it ran past its end switch",
    "span-error, seen: it ran past its end switch",
    "healthy-b, it holds too little"
  })
  void aRunThatEndedEarlyNamesNoCauseAndAdvisesTheNextRun(String unit, String words)
      throws IOException {
    Diagnosis diagnosis = stoppedAt(unit, 5);
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.CANT_TELL);
    assertThat(diagnosis.lines())
        .satisfiesExactly(
            first -> assertThat(first).startsWith("This run can't tell").contains(words),
            then -> assertThat(then).isEqualTo("  Run next: the same procedure, to its end."));
    assertThat(diagnosis.advice()).isEmpty();
  }

  /** What the first strokes tell beyond doubt is named at once. */
  @Test
  void aRunThatEndedEarlyNamesWhatItSaw() throws IOException {
    Diagnosis diagnosis = stoppedAt("reversed-action", 5);
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.ONE_CAUSE);
    assertThat(diagnosis.first().cause()).isEqualTo(Cause.REVERSED_ACTION);
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
