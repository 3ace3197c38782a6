package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.benchstroke.Counted;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.aids.diagnosis.Sign;
import org.benchstroke.aids.twin.FittedValue;
import org.benchstroke.aids.twin.Parameter;
import org.benchstroke.aids.twin.Twin;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.practice.DrawnUnits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
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
    assertThat(diagnosis.lines().get(0)).startsWith("Nothing wrong seen");
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
    "slack-after-sensor, SLACK_AFTER_SENSOR, about 1\\.0 % of travel",
    "long-coast, LONG_COAST, goes past by 0\\.4\\d %",
    "thermal-drift, THERMAL_DRIFT, it went by \\+1\\.\\d %"
  })
  void theShortAcceptanceTellsTheCause(String unit, Cause cause, String amount) {
    Diagnosis diagnosis = Diagnosis.of(VirtualBench.with(unit).judge());
    assertThat(diagnosis.named().get(0).get(0).cause())
        .as("%s", diagnosis.lines())
        .isEqualTo(cause);
    assertThat(diagnosis.advice()).containsPattern(amount);
  }

  /** Without an angle reference a shifted zero can't be told from an earth: both are named. */
  @Test
  void theShortAcceptanceTellsAZeroAsFarAsItsBenchCan() {
    Diagnosis bare = Diagnosis.of(VirtualBench.with("zero-shift").judge());
    assertThat(bare.outcome()).isEqualTo(Diagnosis.Outcome.TWO_CAUSES);
    assertThat(bare.ranked().subList(0, 2))
        .extracting(RankedCause::cause)
        .isSubsetOf(Cause.ZERO_SHIFT, Cause.GROUND_OFFSET, Cause.INPUT_ZERO);
    assertThat(named(bare))
        .containsExactlyInAnyOrder(Cause.ZERO_SHIFT, Cause.GROUND_OFFSET, Cause.INPUT_ZERO);
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
        .doesNotContain(Sign.STEM_BENT, Sign.STEM_OFF_AT_SEAT);
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
    "bent-linkage, NON_LINEAR_LINKAGE, it bends by \\+2\\.\\d %",
    "thermal-drift, THERMAL_DRIFT, it went by \\+[12]\\.\\d %"
  })
  void aSlowRampAloneTellsTheCause(String unit, Cause cause, String amount) {
    Diagnosis diagnosis = ofARamp(unit);
    assertThat(named(diagnosis)).as("%s", diagnosis.lines()).contains(cause);
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
    for (int end = 60; end < entries.size(); end += entries.size() / Counted.of(80)) {
      JudgedRun cut = VirtualBench.judge(new RunRecord(entries.subList(0, end), List.of()));
      Diagnosis diagnosis = Diagnosis.of(cut);
      assertThat(diagnosis.lines()).as("%s lines", end).isNotEmpty();
      assertThat(diagnosis.outcome()).as("%s lines", end).isEqualTo(Diagnosis.Outcome.NOT_CLOSED);
    }
  }

  private static Diagnosis with(String tables, String procedure, Set<String> without)
      throws IOException {
    return with(VirtualBench.simulation("healthy-b", tables), procedure, without);
  }

  private static Diagnosis with(Simulation simulation, String procedure, Set<String> without)
      throws IOException {
    String text = Files.readString(ROUTINE.resolveSibling(procedure + ".toml"));
    return Diagnosis.of(
        VirtualBench.with(
                simulation, "bench.toml", DrawnUnits.without(Files.readString(BENCH), without))
            .tests(text.substring(text.indexOf("[[test]]")))
            .judge());
  }

  private static List<Cause> named(Diagnosis diagnosis) {
    return diagnosis.named().stream().flatMap(List::stream).map(RankedCause::cause).toList();
  }

  /** Larger, or smaller, than what a shop usually meets: another cause must not be sure for it. */
  @ParameterizedTest
  @CsvSource({
    "input.ground_mA = 1.6, GROUND_OFFSET",
    "mechanics.gear_play_pct = 10, BACKLASH_BEFORE_SENSOR",
    "mechanics.coupling_play_pct = 8, SLACK_AFTER_SENSOR",
    "transmitter.zero_pct = 10, ZERO_SHIFT",
    "transmitter.span_pct = -10, SPAN",
    "mechanics.quadrant_deg = 30, QUADRANT_OFF"
  })
  void howeverLargeItIsNothingElseIsNamedForIt(String key, Cause cause) throws IOException {
    Diagnosis diagnosis = with(table(key), "fault-finding", Set.of());
    List<Cause> may =
        cause == Cause.GROUND_OFFSET ? List.of(cause, Cause.INPUT_ZERO) : List.of(cause);
    assertThat(may).as("%s", diagnosis.lines()).containsAll(named(diagnosis));
  }

  /** A stick too small for its jerks to show: slack, or stiction, and not one of them for sure. */
  @Test
  void aSmallStictionIsNotTakenForSlack() throws IOException {
    Diagnosis diagnosis =
        with("\n[mechanics]\nstick_pct = 0.85\nslide_pct = 0.2\n", "fault-finding", Set.of());
    assertThat(named(diagnosis)).as("%s", diagnosis.lines()).contains(Cause.STICTION);
  }

  private static String table(String key) {
    int dot = key.indexOf('.');
    return "\n[" + key.substring(0, dot) + "]\n" + key.substring(dot + 1) + "\n";
  }

  /** Its own quadrant, zero and span are nothing: a bow is none of them, whatever its shape. */
  @ParameterizedTest
  @ValueSource(strings = {"arc", "parabola", "corner", "s"})
  void aBowIsNoQuadrantAndNoSpan(String shape) throws IOException {
    String bend = "\n[mechanics]\nlinkage_bend_pct = 3\nlinkage_shape = \"" + shape + "\"\n";
    Diagnosis stem = with(bend, "fault-finding", Set.of());
    assertThat(named(stem)).as("%s", stem.lines()).containsExactly(Cause.NON_LINEAR_LINKAGE);
    assertThat(stem.advice()).contains("it bends by");
    Diagnosis routine = with(bend, "routine-acceptance", Set.of());
    assertThat(named(routine))
        .as("%s", routine.lines())
        .doesNotContain(Cause.QUADRANT_OFF, Cause.SPAN, Cause.ZERO_SHIFT);
    String bow = "\n[transmitter]\nbow_pct = 3\nbow_shape = \"" + shape + "\"\n";
    for (Set<String> without : List.of(Set.<String>of(), Set.of("angle reference"))) {
      Diagnosis own = with(bow, "routine-acceptance", without);
      assertThat(named(own))
          .as("%s", own.lines())
          .doesNotContain(Cause.QUADRANT_OFF, Cause.SPAN, Cause.ZERO_SHIFT, Cause.GROUND_OFFSET);
    }
  }

  /** Nothing on the bench parts an earth from the zero of the controller's board. */
  @Test
  void anOffsetAtTheInputIsAnEarthOrTheBoard() throws IOException {
    Diagnosis diagnosis = with("\n[input]\nground_mA = 0.3\n", "fault-finding", Set.of());
    assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.TWO_CAUSES);
    assertThat(named(diagnosis)).containsExactlyInAnyOrder(Cause.GROUND_OFFSET, Cause.INPUT_ZERO);
    assertThat(diagnosis.next().orElseThrow()).contains("battery source");
  }

  /** The auxiliary is where it should be: the end switch left it behind. */
  @ParameterizedTest
  @ValueSource(doubles = {88.5, 87.5, 86.0, 80.0})
  void anEndCamSetShortIsNoMatterOfItsAuxiliary(double degrees) throws IOException {
    for (String procedure : List.of("routine-acceptance", "fault-finding", "short-acceptance")) {
      Diagnosis diagnosis = with("\n[switches]\nopen_deg = " + degrees + "\n", procedure, Set.of());
      assertThat(named(diagnosis))
          .as("%s %s", procedure, diagnosis.lines())
          .containsExactly(Cause.CAM_SET_SHORT);
      assertThat(diagnosis.advice()).contains("trip it").doesNotContain("auxiliary");
    }
  }

  /**
   * Without a loop meter a loop at its limit stops the unit like a stop does: 24 V into so many
   * ohms carry no more than 14 to 19.5 mA. Both are named alike, and what a meter tells comes
   * first.
   */
  @ParameterizedTest
  @CsvSource({
    "1714, 56.3, short-acceptance",
    "1500, 67.5, short-acceptance",
    "1400, 73.9, fault-finding",
    "1333, 78.8, short-acceptance",
    "1263, 84.4, short-acceptance",
    "1250, 85.5, fault-finding",
    "1231, 87.2, short-acceptance"
  })
  void aClippedSignalAndAStopLookAlikeWithoutALoopMeter(
      int ohms, double stopDegrees, String procedure) throws IOException {
    for (String fault :
        List.of("input.loop_ohm = " + ohms, "mechanics.open_stop_deg = " + stopDegrees)) {
      Diagnosis diagnosis = with(table(fault), procedure, Set.of("loop meter"));
      assertThat(diagnosis.outcome()).isEqualTo(Diagnosis.Outcome.TWO_CAUSES);
      assertThat(named(diagnosis))
          .as("%s %s", fault, diagnosis.lines())
          .contains(Cause.LOOP_RESISTANCE, Cause.STOP_BEFORE_SWITCH);
      assertThat(diagnosis.named().get(0)).allMatch(r -> r.probability() < 0.6);
      assertThat(diagnosis.next().orElseThrow()).startsWith("put a meter into the loop");
      assertThat(diagnosis.advice())
          .startsWith("measure the loop's current at 20 mA with a meter before you touch a stop");
    }
  }

  /** With one it is one or the other. */
  @Test
  void aLoopMeterPartsThem() throws IOException {
    Diagnosis stop = with(table("mechanics.open_stop_deg = 78.8"), "short-acceptance", Set.of());
    assertThat(named(stop)).as("%s", stop.lines()).containsExactly(Cause.STOP_BEFORE_SWITCH);
    Diagnosis loop = with(table("input.loop_ohm = 1333"), "short-acceptance", Set.of());
    assertThat(named(loop)).as("%s", loop.lines()).containsExactly(Cause.LOOP_RESISTANCE);
  }

  /** Of a unit that is open with 4 mA: no loop is at its limit there. */
  @Test
  void aUnitHeldWhereTheCurrentIsLowestIsHeldByAStop(@TempDir Path folder)
      throws IOException, FileMistakes {
    Path type = folder.resolve("reverse.toml");
    String direct = Files.readString(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    Files.writeString(type, direct.replace("action = \"direct\"", "action = \"reverse\""));
    Path file = VirtualBench.SIMULATORS.resolve("healthy-b.toml");
    String unit =
        Files.readString(file)
                .replaceFirst("unit_type = .*", "unit_type = \"" + type.toUri().getPath() + "\"")
            + table("mechanics.open_stop_deg = 78.8");
    Diagnosis diagnosis =
        with(SimulationReader.read(file, unit), "short-acceptance", Set.of("loop meter"));
    assertThat(named(diagnosis))
        .as("%s", diagnosis.lines())
        .containsExactly(Cause.STOP_BEFORE_SWITCH);
  }

  /** Two parts of the evidence that have nothing to do with each other are two faults. */
  @ParameterizedTest
  @CsvSource({
    "mechanics.quadrant_deg = 5, loss.action = \"stay\", QUADRANT_OFF, WRONG_FAIL_ACTION",
    "mechanics.coupling_play_pct = 2.5, loss.action = \"open\", SLACK_AFTER_SENSOR,"
        + " WRONG_FAIL_ACTION",
    "transmitter.span_pct = 3, switches.open_auxiliary_deg = 91.5, SPAN, AUXILIARY_TRAILS"
  })
  void twoFaultsAtOnceAreBothNamed(String one, String other, Cause first, Cause second)
      throws IOException {
    Diagnosis diagnosis = with(table(one) + table(other), "fault-finding", Set.of());
    assertThat(diagnosis.outcome())
        .as("%s", diagnosis.lines())
        .isEqualTo(Diagnosis.Outcome.BOTH_CAUSES);
    assertThat(named(diagnosis)).contains(first, second);
    assertThat(diagnosis.lines()).anyMatch(l -> l.startsWith("and with it: "));
  }

  /** What a sound unit is told of its dead band is nothing to set. */
  @ParameterizedTest
  @ValueSource(strings = {"routine-acceptance", "dead-band"})
  void aSoundUnitIsToldToSetNothing(String procedure) throws IOException {
    String text = Files.readString(ROUTINE.resolveSibling(procedure + ".toml"));
    JudgedRun run =
        VirtualBench.with("healthy-b", BENCH)
            .tests(text.substring(text.indexOf("[[test]]")))
            .judge();
    assertThat(run.sentences()).noneMatch(f -> f.contains("Set its start threshold"));
    Twin twin = Twin.of(run);
    assertThat(twin.leastStartPercent()).isEmpty();
    assertThat(twin.words()).noneMatch(w -> w.startsWith("Widen"));
    for (Parameter p : twin.parameters()) {
      assertThat(p.found().map(FittedValue::half).orElse(0.0))
          .as(p.key())
          .isLessThanOrEqualTo(Math.max(0.2, p.found().map(f -> Math.abs(f.value())).orElse(1.0)));
    }
  }
}
