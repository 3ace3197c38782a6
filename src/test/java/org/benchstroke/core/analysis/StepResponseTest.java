package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.core.analysis.SteppedUnit.Kind;
import org.benchstroke.core.analysis.Trace.Sample;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must hold of every step response; a failure prints its seed. */
class StepResponseTest {
  private static final double PERIOD = 0.05;
  private static final PositionNoise QUIET = new PositionNoise(0.0, 0.0);

  /** Samples from 2 s before the step to {@code seconds} after it. */
  private static Trace trace(double seconds, DoubleUnaryOperator position) {
    Trace.Builder trace = Trace.builder(16);
    for (int i = -40; i * PERIOD <= seconds; i++) {
      trace.add(i * PERIOD, 0.002, position.applyAsDouble(i * PERIOD), false);
    }
    return trace.build();
  }

  private static Step step(double from, double to) {
    return new Step(0.0, 0.001, from, to, 0.3, QUIET, 3.0 * PERIOD);
  }

  /** 0.3 s of nothing, then 6 %/s up to 60. */
  private static double ramp(double t) {
    return 50.0 + Math.max(0.0, Math.min(10.0, (t - 0.3) * 6.0));
  }

  private static Map<String, Figure> figures(StepResponse r) {
    Map<String, Figure> figures = new LinkedHashMap<>();
    figures.put("dead time", r.deadTime());
    figures.put("first motion", r.firstMotion());
    figures.put("T63", r.t63());
    figures.put("T86", r.t86());
    figures.put("T98", r.t98());
    figures.put("rise", r.rise());
    figures.put("ratio", r.timeRatio());
    figures.put("overshoot", r.overshoot());
    figures.put("overshoot of travel", r.overshootOfTravel());
    figures.put("settling", r.settling());
    figures.put("steady-state error", r.steadyStateError());
    figures.put("slew", r.slew());
    return figures;
  }

  @Test
  void constantSpeedByHand() {
    StepResponse r = StepResponse.of(trace(6.0, StepResponseTest::ramp), step(50.0, 60.0));
    assertThat(r.t63().value()).isCloseTo(0.3 + 6.3212056 / 6.0, within(1e-6));
    assertThat(r.t86().value()).isCloseTo(0.3 + 8.6466472 / 6.0, within(1e-6));
    assertThat(r.rise().value()).isCloseTo(8.0 / 6.0, within(1e-9));
    assertThat(r.settling().value()).isCloseTo(0.3 + 9.7 / 6.0, within(0.01));
    assertThat(r.slew().value()).isCloseTo(6.0, within(1e-9));
    assertThat(r.steadyStateError().value()).isCloseTo(0.0, within(1e-9));
    assertThat(r.firstMotion().value()).isCloseTo(0.35, within(1e-9));
    // By hand: the step ±1 ms, the stamps ±2 ms; no noise, and constant speed between samples.
    assertThat(r.t63().estimate().orElseThrow().standard())
        .isCloseTo(Math.hypot(0.001, 0.002) / Math.sqrt(3.0), within(1e-6));
    assertThat(r.t63().estimate().orElseThrow().perPercent()).isCloseTo(1.0 / 6.0, within(1e-6));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void reversedActionMirrors(long seed) {
    Step step = unit(seed).step(band(seed));
    Trace trace = read(seed);
    Trace mirrored =
        new Trace(
            trace.samples().stream()
                .map(s -> new Sample(s.seconds(), s.stampHalfSeconds(), 100.0 - s.percent(), false))
                .toList());
    Step turned =
        new Step(
            step.seconds(),
            step.halfSeconds(),
            100.0 - step.fromPercent(),
            100.0 - step.toPercent(),
            step.bandPercent(),
            step.noise(),
            step.longestPauseSeconds());
    Map<String, Figure> before = figures(StepResponse.of(trace, step));
    Map<String, Figure> after = figures(StepResponse.of(mirrored, turned));
    before.forEach(
        (name, figure) ->
            same(name, figure, after.get(name), name.equals("steady-state error") ? -1.0 : 1.0));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void anotherUnitOfTimeScalesTimes(long seed) {
    Step step = unit(seed).step(band(seed));
    Trace trace = read(seed);
    double scale = 4.0;
    Trace scaled =
        new Trace(
            trace.samples().stream()
                .map(
                    s ->
                        new Sample(
                            s.seconds() * scale, s.stampHalfSeconds() * scale, s.percent(), false))
                .toList());
    Step slow =
        new Step(
            step.seconds() * scale,
            step.halfSeconds() * scale,
            step.fromPercent(),
            step.toPercent(),
            step.bandPercent(),
            step.noise(),
            step.longestPauseSeconds() * scale);
    Map<String, Figure> before = figures(StepResponse.of(trace, step));
    Map<String, Figure> after = figures(StepResponse.of(scaled, slow));
    List<String> bare = List.of("ratio", "overshoot", "overshoot of travel", "steady-state error");
    before.forEach(
        (name, figure) ->
            same(
                name,
                figure,
                after.get(name),
                name.equals("slew") ? 1.0 / scale : bare.contains(name) ? 1.0 : scale));
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void anotherUnitOfPositionChangesNoTime(long seed) {
    Step step = unit(seed).step(band(seed));
    Trace trace = read(seed);
    double scale = 1.5;
    Trace scaled =
        new Trace(
            trace.samples().stream()
                .map(s -> new Sample(s.seconds(), s.stampHalfSeconds(), s.percent() * scale, false))
                .toList());
    Step larger =
        new Step(
            step.seconds(),
            step.halfSeconds(),
            step.fromPercent() * scale,
            step.toPercent() * scale,
            step.bandPercent() * scale,
            new PositionNoise(
                step.noise().deviationPercent() * scale, step.noise().resolutionPercent() * scale),
            step.longestPauseSeconds());
    Map<String, Figure> before = figures(StepResponse.of(trace, step));
    Map<String, Figure> after = figures(StepResponse.of(scaled, larger));
    List<String> positions = List.of("overshoot of travel", "steady-state error", "slew");
    before.forEach(
        (name, figure) ->
            same(name, figure, after.get(name), positions.contains(name) ? scale : 1.0));
  }

  private static void same(String name, Figure before, Figure after, double factor) {
    assertThat(after.isPresent()).as(name).isEqualTo(before.isPresent());
    if (before.isPresent()) {
      double value = before.value() * factor;
      double standard = before.estimate().orElseThrow().standard() * Math.abs(factor);
      double slack = 1e-6 * (Math.abs(value) + standard);
      assertThat(after.value()).as(name).isCloseTo(value, within(slack));
      assertThat(after.estimate().orElseThrow().standard())
          .as("u of " + name)
          .isCloseTo(standard, within(1e-4 * standard + 1e-12));
    }
  }

  private static SteppedUnit unit(long seed) {
    Kind kind = List.of(Kind.values()).get((int) (seed % 3));
    return SteppedUnit.random(kind, new Random(seed));
  }

  private static double band(long seed) {
    return Math.max(0.02 * unit(seed).change(), 6.0 * unit(seed).noise().standard());
  }

  private static Trace read(long seed) {
    return unit(seed).read(new Random(seed));
  }

  /** Noise alone may put a sample outside; anything beyond four deviations is an exit. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
  void neverSettledBeforeTheLastExit(long seed) {
    Step step = unit(seed).step(band(seed));
    Trace trace = read(seed);
    StepResponse r = StepResponse.of(trace, step);
    if (!r.settling().isPresent()) {
      return;
    }
    double least = step.bandPercent() + 4.0 * step.noise().standard();
    double settled = step.seconds() + r.settling().value();
    double last =
        trace.samples().stream()
            .filter(s -> Math.abs(s.percent() - r.finish().value()) > least)
            .mapToDouble(Sample::seconds)
            .max()
            .orElseThrow();
    assertThat(settled).isGreaterThanOrEqualTo(last);
  }

  @Test
  void aLateExitFromTheBandIsTheSettlingTime() {
    Trace trace = trace(20.0, t -> t > 8.0 && t < 8.4 ? 60.5 : ramp(t));
    double settling = StepResponse.of(trace, step(50.0, 60.0)).settling().value();
    assertThat(settling).isBetween(8.35, 8.4 + 1e-9);
  }

  /** By noise a swing of just the band's height is seen outside or not: U holds both readings. */
  @ParameterizedTest
  @ValueSource(doubles = {0.29, 0.30, 0.31})
  void aSwingThatJustReachesTheBandLeavesBothTimesOpen(double height) {
    for (long seed = 1; seed <= 20; seed++) {
      Random random = new Random(seed * 0x9E3779B97F4A7C15L);
      Trace trace =
          trace(
              40.0,
              t -> {
                double swing = t > 5.0 && t < 9.0 ? Math.sin((t - 5.0) * Math.PI / 4.0) : 0.0;
                return ramp(t) + height * swing + 0.02 * random.nextGaussian();
              });
      PositionNoise noise = new PositionNoise(0.02, 0.0);
      Step step = new Step(0.0, 0.001, 50.0, 60.0, 0.3, noise, 3.0 * PERIOD);
      Estimate settling = StepResponse.of(trace, step).settling().estimate().orElseThrow();
      assertThat(settling.parts())
          .extracting(Estimate.Part::origin)
          .as("seed %s", seed)
          .contains(Estimate.Origin.WHICH_SWING);
      double half = settling.halfWidth(0.95);
      // What is true: on the ramp, or where 0.31·sin comes down to 0.3.
      double truth = height > 0.3 ? 7.324 : 0.3 + 9.7 / 6.0;
      assertThat(settling.value() - half).isLessThan(truth);
      assertThat(settling.value() + half).isGreaterThan(7.0);
    }
  }

  @Test
  void aGapVoidsWhatSpansIt() {
    assertThat(absentWithGap(0.95, 1.25))
        .containsExactlyInAnyOrder(
            "T63",
            "T86",
            "T98",
            "rise",
            "ratio",
            "overshoot",
            "overshoot of travel",
            "settling",
            "slew");
    assertThat(absentWithGap(0.02, 0.28)).contains("dead time", "T63").doesNotContain("settling");
    assertThat(absentWithGap(3.0, 3.3))
        .containsExactlyInAnyOrder("overshoot", "overshoot of travel", "settling");
    assertThat(absentWithGap(-1.5, -1.2)).isEmpty();
  }

  private static List<String> absentWithGap(double from, double to) {
    Trace whole = trace(6.0, StepResponseTest::ramp);
    Trace holed =
        new Trace(
            whole.samples().stream().filter(s -> s.seconds() < from || s.seconds() > to).toList());
    Map<String, Figure> figures = figures(StepResponse.of(holed, step(50.0, 60.0)));
    return figures.entrySet().stream()
        .filter(e -> !e.getValue().isPresent())
        .peek(e -> assertThat(e.getValue().reason()).startsWith("gap of 0."))
        .map(Map.Entry::getKey)
        .toList();
  }

  @Test
  void whatIsNotReachedIsAbsentWithItsReason() {
    StepResponse still = StepResponse.of(trace(5.0, t -> 50.0), step(50.0, 51.0));
    Map<String, Figure> times = figures(still);
    assertThat(times.remove("steady-state error").value()).isCloseTo(-1.0, within(1e-9));
    assertThat(times.values()).allMatch(f -> f.reason().equals("it did not move"));
    StepResponse wrong = StepResponse.of(trace(5.0, t -> 100.0 - ramp(t)), step(50.0, 60.0));
    assertThat(wrong.t63().reason()).startsWith("it moved the other way, by 10");
    StepResponse moving =
        StepResponse.of(trace(8.0, t -> 50.0 + Math.max(0.0, t)), step(50.0, 60.0));
    assertThat(moving.t63().reason()).startsWith("it did not settle");
    assertThat(moving.steadyStateError().reason()).startsWith("it did not settle");
    StepResponse hunting =
        StepResponse.of(
            trace(20.0, t -> ramp(t) + (t > 2.0 ? 0.5 * Math.sin(7.0 * t) : 0.0)),
            step(50.0, 60.0));
    assertThat(hunting.settling().reason()).startsWith("it did not settle");
    assertThat(hunting.deadTime().isPresent()).isTrue();
    Trace late = trace(5.0, StepResponseTest::ramp);
    assertThat(StepResponse.of(late.slice(60, late.size()), step(50, 60)).t63().reason())
        .isEqualTo("too few positions were read before the step");
  }

  @Test
  void coarseSamplingIsSaid() {
    // Half a percent at 20 %/s: the whole motion takes half an interval.
    StepResponse r =
        StepResponse.of(
            trace(6.0, t -> 50.0 + Math.max(0.0, Math.min(0.5, (t - 0.31) * 20.0))),
            new Step(0.0, 0.0, 50.0, 50.5, 0.1, QUIET, 3.0 * PERIOD));
    assertThat(r.rise().reason()).startsWith("sampling insufficient: the rise of");
    assertThat(r.slew().reason()).startsWith("sampling insufficient");
    // The instant is still known to half an interval.
    assertThat(r.t63().value()).isCloseTo(0.3258, within(0.025));
    assertThat(r.t63().estimate().orElseThrow().halfWidth(0.95)).isBetween(0.02, 0.03);
    StepResponse early =
        StepResponse.of(
            trace(6.0, t -> 50.0 + Math.max(0.0, Math.min(5.0, (t - 0.02) * 60.0))),
            step(50.0, 55.0));
    // A dead time of less than three intervals lies between two samples, and no more is said.
    assertThat(early.deadTime().value()).isCloseTo(0.025, within(0.025));
    assertThat(early.deadTime().estimate().orElseThrow().halfWidth(1.0))
        .isGreaterThanOrEqualTo(0.025);
  }

  @Test
  void aBandInTheNoiseIsSaid() {
    Step step = new Step(0.0, 0.0, 50.0, 60.0, 0.1, new PositionNoise(0.05, 0.0), 3.0 * PERIOD);
    Random random = new Random(5);
    Trace noisy = trace(8.0, t -> ramp(t) + 0.05 * random.nextGaussian());
    StepResponse r = StepResponse.of(noisy, step);
    assertThat(r.settling().reason())
        .isEqualTo("the band of ±0.1 % is lost in the noise: it would take ±0.20 %");
    assertThat(r.overshoot().value()).isZero();
    assertThat(r.overshootOfTravel().estimate().orElseThrow().standard()).isGreaterThan(0.05);
  }

  @Test
  void aSaturatedSampleVoidsWhatSpansIt() {
    Trace.Builder builder = Trace.builder(200);
    for (Sample s : trace(6.0, StepResponseTest::ramp).samples()) {
      builder.add(s.seconds(), 0.002, s.percent(), s.seconds() > 0.98 && s.seconds() < 1.02);
    }
    builder.add(6.05, 0.002, 60.0, false);
    StepResponse r = StepResponse.of(builder.build(), step(50.0, 60.0));
    assertThat(r.deadTime().isPresent()).isTrue();
    assertThat(r.t63().reason()).startsWith("saturated sample");
  }

  @Test
  void aStepIsChecked() {
    assertThatThrownBy(() -> step(50.0, 50.0)).hasMessageContaining("two different setpoints");
    assertThatThrownBy(() -> new PositionNoise(-1.0, 0.0)).hasMessageContaining("0 or more");
  }

  @Test
  void widthOfAnInterval() {
    Estimate normal = new Estimate(1.0, List.of(Estimate.Part.normal("noise", 0.1)), 0.0);
    assertThat(normal.halfWidth(0.95)).isCloseTo(0.1959964, within(1e-6));
    Estimate bound = new Estimate(1.0, List.of(Estimate.Part.within("bound", 0.1)), 0.0);
    assertThat(bound.halfWidth(0.95)).isCloseTo(0.095, within(1e-12));
    // Source: EA-4/02 S9, a dominant rectangular part: k = 1.65; from memory.
    Estimate both =
        new Estimate(
            1.0,
            List.of(Estimate.Part.within("bound", 1.0), Estimate.Part.normal("noise", 0.02)),
            0.0);
    assertThat(both.halfWidth(0.95) / both.standard()).isCloseTo(1.65, within(0.01));
  }

  /** A meter at its end says nothing of where the unit is, however still it stands. */
  @Test
  void aPeggedEndHasNoLevel() {
    Trace.Builder pegged = Trace.builder(16);
    for (int i = -40; i * PERIOD <= 6.0; i++) {
      double y = Math.min(58.0, ramp(i * PERIOD));
      pegged.add(i * PERIOD, 0.002, y, y >= 58.0);
    }
    StepResponse r = StepResponse.of(pegged.build(), step(50.0, 58.0));
    assertThat(r.steadyStateError().isPresent()).isFalse();
    assertThat(r.steadyStateError().toString()).contains("saturated");
    assertThat(r.t63().isPresent()).isFalse();
  }

  @Test
  void aDriftBeforeTheStepIsNoRest() {
    StepResponse r = StepResponse.of(trace(6.0, t -> ramp(t) + 0.2 * t), step(50.0, 60.0));
    assertThat(r.deadTime().isPresent()).isFalse();
    assertThat(r.deadTime().toString()).contains("it was not at rest before the step");
  }

  @Test
  void aGapInARestIsNoRest() {
    Trace whole = trace(8.0, StepResponseTest::ramp);
    for (double hole : new double[] {-0.5, 7.5}) {
      Trace.Builder cut = Trace.builder(16);
      for (Sample s : whole.samples()) {
        if (Math.abs(s.seconds() - hole) > 0.2) {
          cut.add(s.seconds(), s.stampHalfSeconds(), s.percent(), false);
        }
      }
      StepResponse r = StepResponse.of(cut.build(), step(50.0, 60.0));
      Figure spoiled = hole < 0.0 ? r.deadTime() : r.steadyStateError();
      assertThat(spoiled.toString()).as("hole at %s s", hole).contains("gap of");
    }
  }
}
