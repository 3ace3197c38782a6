package org.benchstroke.aids.twin;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.benchstroke.Counted;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.model.LoadParameters;
import org.benchstroke.core.model.ModelParameters;
import org.benchstroke.core.model.MotorParameters;
import org.benchstroke.core.model.SensorParameters;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestTrace;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.practice.SettingsDraw;
import org.junit.jupiter.api.Test;

/** Twins of simulated units, whose settings are known; what a twin must not explain. */
class TwinTest {
  private static final Path BENCH = Path.of("demo-data/benches/type-test-bench.toml");
  private static final Path DEAD_BAND = Path.of("demo-data/procedures/dead-band.toml");
  private static final Path ROUTINE = Path.of("demo-data/procedures/routine-acceptance.toml");

  private static final Path TYPE = Path.of("demo-data/unit-types/quarter-turn-15s.toml");

  private static final Path SHORT = Path.of("demo-data/procedures/short-acceptance.toml");

  private static Twin twin(String unit, Path procedure) {
    return Twin.of(VirtualBench.with(unit, BENCH).tests(Recovery.tests(procedure)).judge());
  }

  /** Units that were not looked at while the fit was made; all 500 are counted by a benchmark. */
  @Test
  void hiddenSettingsAreFound() {
    List<Recovery> units =
        LongStream.range(501, 501 + Counted.of(80)).mapToObj(Recovery::of).toList();
    for (Recovery r : units) {
      assertThat(r.startError()).as(r.toString()).isLessThan(0.05);
      assertThat(r.leadOff()).as(r.toString()).isLessThan(0.002 + 0.05 * r.lookPercent());
    }
    // With a coverage of 95 % three standard deviations fewer happen less than once in 100.
    double enough = 0.95 * units.size() - 3.0 * Math.sqrt(0.95 * 0.05 * units.size());
    assertThat(units).filteredOn(Recovery::startCovered).hasSizeGreaterThan((int) enough);
    assertThat(units).filteredOn(Recovery::leadCovered).hasSizeGreaterThan((int) enough);
    assertThat(units).filteredOn(Recovery::explained).hasSizeGreaterThan((int) enough);
    for (String key : units.get(0).hidden().keySet()) {
      assertThat(units).filteredOn(r -> r.covered(key)).as(key).hasSizeGreaterThan((int) enough);
    }
    for (String key : List.of("speed_opening", "speed_closing")) {
      assertThat(units).as(key).allMatch(r -> r.off(key) < 0.01 * r.hidden().get(key));
    }
    assertThat(units).allMatch(r -> r.off("lag") < 0.015);
  }

  /** What simulators/backlash-before-sensor.toml and slack-after-sensor.toml hide. */
  @Test
  void playIsFoundOnItsSideOfTheSensor() {
    Twin before = twin("backlash-before-sensor", ROUTINE);
    Twin after = twin("slack-after-sensor", ROUTINE);
    assertThat(before.found("play_inside").orElseThrow().value()).isBetween(1.9, 2.1);
    assertThat(before.found("play_outside").orElseThrow().value()).isBetween(-0.02, 0.02);
    assertThat(after.found("play_inside").orElseThrow().value()).isBetween(0.0, 0.15);
    assertThat(after.found("play_outside").orElseThrow().value()).isBetween(0.98, 1.02);
  }

  @Test
  void aRunThatCannotTellSaysWhatItLacks() {
    Twin dead = twin("healthy-b", DEAD_BAND);
    assertThat(dead.found("play_outside")).isEmpty();
    assertThat(dead.parameters().toString()).contains("needs an angle reference");
    Twin brief = twin("healthy-b", SHORT);
    assertThat(brief.found(Twin.START)).isEmpty();
    assertThat(brief.leastStartPercent()).isEmpty();
    assertThat(brief.words().get(0)).contains("does not show at which error the motor starts");
    assertThat(twin("dead-spot", DEAD_BAND).words().get(0)).startsWith("No twin: ");
  }

  /** The recommendation is tried out: with it the unit must not hunt, well below it must. */
  @Test
  void aUnitThatHuntsIsToldHowToBeSet() {
    Simulation unit = VirtualBench.simulation("dead-band-too-small");
    Twin twin = twin("dead-band-too-small", ROUTINE);
    double least = twin.leastStartPercent().orElseThrow();
    assertThat(twin.words().get(0)).startsWith("It hunts. Widen its start threshold");
    assertThat(hunts(unit, least)).isFalse();
    assertThat(hunts(unit, 0.75 * least)).isTrue();
  }

  private static boolean hunts(Simulation s, double start) {
    ModelParameters p = s.parameters();
    ModelParameters set = p.with(p.control().withThresholds(start, p.control().stopPercent()));
    Simulation changed = s.withUnit(set);
    JudgedRun run =
        VirtualBench.with(changed)
            .tests("[[test]]\ntest = \"hunting\"\npoints_pct = [10, 25, 50, 75, 90]\nhold_s = 60\n")
            .judge();
    return run.traces().stream()
        .anyMatch(t -> t instanceof TestTrace.OfHold hold && hold.turning().size() > 2);
  }

  /** Stiction that the sensor sees, a motor that slows under load, noise: no model of ours. */
  @Test
  void whatTheModelDoesNotExplainGetsNoAdvice() {
    Simulation s = VirtualBench.simulation("healthy-b");
    ModelParameters p = s.parameters();
    ModelParameters sticks =
        p.with(p.sensor().on(SensorParameters.Place.STEM))
            .with(p.mechanics().withFriction(1.5, 0.3));
    MotorParameters m = p.motor();
    ModelParameters slows =
        p.with(new LoadParameters(0.2, 1.0, 40.0, 0.8))
            .with(
                new MotorParameters(
                    m.kind(), 15.0, m.runUpSeconds(), m.brakeSeconds(), 60.0, 0.6, 1.3, 1.0));
    for (ModelParameters strange : List.of(sticks, slows)) {
      Simulation unit = s.withSeed(5).withAngleReference(true).withUnit(strange);
      Twin twin = Twin.of(VirtualBench.with(unit).tests(Recovery.tests(DEAD_BAND)).judge());
      assertThat(twin.leastStartPercent()).as(twin.words().toString()).isEmpty();
      assertThat(twin.words().get(0)).contains("the model does not explain this unit");
    }
  }

  /** Strokes of 3 to 8 s, and of 30 to 60 s, by the same procedure. */
  @Test
  void fastAndSlowUnitsAreFoundToo() {
    List<Recovery> units =
        Stream.concat(
                LongStream.rangeClosed(501, 506).mapToObj(Recovery::fast),
                LongStream.rangeClosed(501, 503).mapToObj(Recovery::slow))
            .toList();
    List<Recovery> told = units.stream().filter(r -> r.lead().isPresent()).toList();
    assertThat(told).hasSizeGreaterThanOrEqualTo(units.size() - 1);
    for (Recovery r : told) {
      assertThat(r.startError()).as(r.toString()).isLessThan(0.05);
      double half = r.lead().orElseThrow().half();
      assertThat(r.leadOff()).as(r.toString()).isLessThan(Math.max(half, 0.08 * r.lookPercent()));
      assertThat(half).as(r.toString()).isLessThan(0.2 * r.unit().startPercent());
    }
    // Where it moves by three times its start threshold between two looks it never comes to rest.
    for (Recovery r : units) {
      if (r.lead().isEmpty()) {
        assertThat(r.lookPercent()).isGreaterThan(3.0 * r.unit().startPercent());
        assertThat(r.twin().words().get(0))
            .contains("it did not come to rest in ", " a hunting test");
      }
    }
  }

  private static Twin fast(String tests) {
    SettingsDraw.Unit drawn = SettingsDraw.unit(501, TYPE, 4.5, 5.5);
    return Twin.of(
        VirtualBench.with(drawn.simulation())
            .unitType(text -> drawn.unitTypeText())
            .tests(tests)
            .judge());
  }

  /** None of them corrects itself: they did not move it, or were too short. */
  @Test
  void tooFewMovesAreToldForWhatTheyAre() {
    Twin twin =
        fast(
            """
            [[test]]
            test = "travel error"
            points_pct = [40, 45, 50, 50.05, 50.1, 55, 60]
            cycles = 2
            """);
    assertThat(twin.words().get(0))
        .startsWith("No twin: of ")
        .contains(" did not move it, ", " were shorter than the 9.0 % of travel")
        .contains(" 0 took more than one motion")
        .doesNotContain("hunts");
  }

  /** A figure of which nothing is known is none: what would tell it stands in its place. */
  @Test
  void whatIsNotToldIsNoFigure() {
    for (String procedure : List.of("routine-acceptance", "short-acceptance", "dead-band")) {
      Twin twin = fast(Recovery.tests(ROUTINE.resolveSibling(procedure + ".toml")));
      for (Parameter p : twin.parameters()) {
        p.found()
            .ifPresent(
                f ->
                    assertThat(f.half())
                        .as(procedure + " " + p)
                        .isLessThan(Math.max(0.2, 0.5 * Math.abs(f.value()))));
        if (p.found().isEmpty()) {
          assertThat(p.note()).as(p.key()).containsPattern("needs|do, read|test");
        }
      }
    }
  }
}
