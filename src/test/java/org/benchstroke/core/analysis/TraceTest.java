package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.core.analysis.Trace.Sample;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TraceTest {
  private static final PositionNoise QUIET = new PositionNoise(0.0, 0.0);
  private static final double PERIOD = 0.1;
  private static final double PAUSE = 0.3;

  private static Trace trace(double seconds, DoubleUnaryOperator position) {
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i * PERIOD <= seconds; i++) {
      samples.add(new Sample(i * PERIOD, 0.005, position.applyAsDouble(i * PERIOD), false));
    }
    return new Trace(samples);
  }

  /** Starts 0.4 s after the command and takes 15 s, then stands. */
  private static double stroke(double t) {
    return Math.max(0.0, Math.min(100.0, (t - 0.4) / 15.0 * 100.0));
  }

  @Test
  void timesAStrokeOfConstantSpeed() {
    StrokeTiming.Timed timed =
        StrokeTiming.of(trace(20, TraceTest::stroke), 0.0, 0, 100, PAUSE, QUIET)
            .timed()
            .orElseThrow();
    assertThat(timed.seconds()).isCloseTo(15.0, within(1e-9));
    assertThat(timed.deadSeconds()).isCloseTo(0.4, within(1e-9));
    assertThat(timed.noiseStandard()).isZero();
    // By hand: stamps √2·0.005/√3/0.9; at constant speed the straight line is exact.
    assertThat(timed.stampStandard()).isCloseTo(0.004536, within(1e-6));
    assertThat(timed.interpolationStandard()).isZero();
  }

  @Test
  void closingIsTheMirrorOfOpening() {
    StrokeTiming.Timed closing =
        StrokeTiming.of(trace(20, t -> 100.0 - stroke(t)), 0.0, 100, 0, PAUSE, QUIET)
            .timed()
            .orElseThrow();
    assertThat(closing.seconds()).isCloseTo(15.0, within(1e-9));
  }

  /** The stated uncertainty covers the truth: stamps and noise at random, seeds fixed. */
  @Test
  void strokeTimeLiesWithinItsUncertainty() {
    int covered = 0;
    for (long seed = 0; seed < 2000; seed++) {
      Random random = new Random(seed);
      List<Sample> samples = new ArrayList<>();
      double phase = random.nextDouble() * PERIOD;
      for (int i = 0; i < 200; i++) {
        double stamp = phase + i * PERIOD;
        double taken = stamp + (random.nextDouble() - 0.5) * 0.04;
        double noisy = stroke(taken) + 0.1 * random.nextGaussian();
        samples.add(new Sample(stamp, 0.02, noisy, false));
      }
      StrokeTiming.Timed timed =
          StrokeTiming.of(new Trace(samples), 0.0, 0, 100, PAUSE, new PositionNoise(0.1, 0.0))
              .timed()
              .orElseThrow();
      double u =
          Math.hypot(
              Math.hypot(timed.stampStandard(), timed.interpolationStandard()),
              timed.noiseStandard());
      covered += Math.abs(timed.seconds() - 15.0) <= 1.96 * u ? 1 : 0;
    }
    assertThat(covered).isBetween(1860, 1940);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.1, 0.5, 2.0, 10.0})
  void anotherUnitOfTimeScalesTheStroke(double scale) {
    List<Sample> scaled =
        trace(20, TraceTest::stroke).samples().stream()
            .map(s -> new Sample(s.seconds() * scale, 0.005 * scale, s.percent(), false))
            .toList();
    StrokeTiming.Timed timed =
        StrokeTiming.of(new Trace(scaled), 0.0, 0, 100, PAUSE * scale, QUIET).timed().orElseThrow();
    assertThat(timed.seconds()).isCloseTo(15.0 * scale, within(1e-9 * scale));
  }

  @Test
  void aGapInTheStrokeVoidsIt() {
    Trace whole = trace(20, TraceTest::stroke);
    Trace holed =
        new Trace(
            whole.samples().stream().filter(s -> s.seconds() < 7.0 || s.seconds() > 7.4).toList());
    StrokeTiming.Outcome outcome = StrokeTiming.of(holed, 0.0, 0, 100, PAUSE, QUIET);
    assertThat(outcome.timed()).isEmpty();
    assertThat(outcome.reason()).contains("gap of 0.").contains("s between samples");
  }

  @Test
  void aGapAtACrossingVoidsItAndOneAfterTheStrokeDoesNot() {
    Trace whole = trace(20, TraceTest::stroke);
    // 5 % is crossed at 1.15 s, 95 % at 14.65 s.
    assertThat(holed(whole, 1.0, 1.4)).contains("gap");
    assertThat(holed(whole, 14.4, 14.9)).contains("gap");
    assertThat(holed(whole, 16.0, 18.0)).isEmpty();
    assertThat(holed(whole, 0.05, 0.65)).isEmpty();
  }

  private static String holed(Trace whole, double from, double to) {
    Trace holed =
        new Trace(
            whole.samples().stream().filter(s -> s.seconds() < from || s.seconds() > to).toList());
    return StrokeTiming.of(holed, 0.0, 0, 100, PAUSE, QUIET).reason();
  }

  @Test
  void whatNeverArrivedHasNoTime() {
    Trace stuck = trace(40, t -> Math.min(92.0, stroke(t)));
    assertThat(StrokeTiming.of(stuck, 0.0, 0, 100, PAUSE, QUIET).reason())
        .isEqualTo("position never reached 95 % of the stroke");
    assertThat(StrokeTiming.of(trace(40, t -> 0.0), 0.0, 0, 100, PAUSE, QUIET).reason())
        .isEqualTo("position never reached 5 % of the stroke");
    assertThat(StrokeTiming.of(trace(40, t -> 50.0), 0.0, 0, 100, PAUSE, QUIET).reason())
        .contains("already past 5 %");
    assertThat(StrokeTiming.of(new Trace(List.of()), 0.0, 0, 100, PAUSE, QUIET).reason())
        .contains("no position was read");
  }

  @Test
  void aSaturatedSampleInTheStrokeVoidsIt() {
    List<Sample> samples =
        trace(20, TraceTest::stroke).samples().stream()
            .map(s -> new Sample(s.seconds(), 0.005, s.percent(), Math.abs(s.seconds() - 9) < 0.01))
            .toList();
    assertThat(StrokeTiming.of(new Trace(samples), 0.0, 0, 100, PAUSE, QUIET).reason())
        .contains("saturated");
  }

  @Test
  void motionAfterADisturbance() {
    Trace trace = trace(15, t -> Math.max(0.0, Math.min(50.0, 50.0 - (t - 1.0) * 100.0 / 15.0)));
    Motion motion = Motion.of(trace, 0.0, 50.0, 0.5);
    assertThat(motion.moved()).isTrue();
    assertThat(motion.startedAfterSeconds().orElseThrow()).isCloseTo(1.1, within(0.05));
    assertThat(motion.endPercent()).isCloseTo(0.0, within(1e-9));
    assertThat(motion.excursionPercent()).isCloseTo(-50.0, within(1e-9));
    assertThat(motion.moving()).isFalse();
    // 2 % is reached 1 + 48·0.15 = 8.2 s after.
    assertThat(Motion.withinForGood(trace, 0.0, Double.NEGATIVE_INFINITY, 2.0).orElseThrow())
        .isCloseTo(8.2, within(0.11));
    assertThat(Motion.withinForGood(trace, 0.0, 98.0, 200.0)).isEmpty();
  }

  @Test
  void oneSpikeIsNoMotion() {
    Trace trace = trace(10, t -> Math.abs(t - 5.0) < 0.01 ? 60.0 : 50.0);
    Motion motion = Motion.of(trace, 0.0, 50.0, 0.5);
    assertThat(motion.moved()).isFalse();
    assertThat(motion.excursionPercent()).isCloseTo(10.0, within(1e-9));
  }

  @Test
  void stillMovingIsSaid() {
    assertThat(Motion.of(trace(3, t -> 50.0 - t * 5.0), 0.0, 50.0, 0.5).moving()).isTrue();
  }

  @Test
  void aDeadSpotIsAnImpossibleSlew() {
    double fastest = 10.0;
    Trace dead = trace(20, t -> stroke(t) > 62.0 && stroke(t) < 64.0 ? 0.0 : stroke(t));
    assertThat(TraceGuards.impossibleSlew(dead, fastest, 0.02, 0.01).orElseThrow())
        .startsWith("impossible slew");
    assertThat(TraceGuards.impossibleSlew(trace(20, TraceTest::stroke), fastest, 0.02, 0.01))
        .isEmpty();
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
  void noiseAndJitterAreNoImpossibleSlew(long seed) {
    Random random = new Random(seed);
    List<Sample> samples = new ArrayList<>();
    for (int i = 0; i < 2000; i++) {
      double taken = i * PERIOD + (random.nextDouble() - 0.5) * 0.08;
      double position = stroke(taken % 20.0 < 18.0 ? Math.min(taken, 18.0) : 18.0);
      samples.add(new Sample(i * PERIOD, 0.04, position + 0.05 * random.nextGaussian(), false));
    }
    assertThat(TraceGuards.impossibleSlew(new Trace(samples), 10.0, 0.05, 0.01)).isEmpty();
  }

  @Test
  void frozenOnlyIfEveryBitIsTheSame() {
    assertThat(TraceGuards.frozen(trace(5, t -> 37.5), 20).orElseThrow())
        .contains("samples of exactly 37.50 %");
    assertThat(TraceGuards.frozen(trace(5, t -> t > 4.0 ? 37.51 : 37.5), 20)).isEmpty();
    assertThat(TraceGuards.frozen(trace(1, t -> 37.5), 20)).isEmpty();
  }
}
