package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A stroke of 15 s, logged ten times a second, by a clock that is set while it runs. */
class ClockStepsTest {
  private static final double PERIOD = 0.1;
  private static final double NOISE = 0.02;

  private interface Stamps {
    /** The stamp of a sample that was taken at an instant; NaN if it is missing. */
    double of(int index, double instant);
  }

  private static Trace trace(Stamps stamps, double jitter, SplittableRandom r) {
    Trace.Builder trace = Trace.builder(200);
    for (int i = 0; i < 200; i++) {
      double instant = i * PERIOD + jitter * r.nextGaussian();
      double percent = Math.max(0.0, Math.min(100.0, (instant - 1.0) / 15.0 * 100.0));
      double stamp = stamps.of(i, instant);
      if (!Double.isNaN(stamp)) {
        trace.add(stamp, 0.0005, percent + NOISE * r.nextGaussian(), false);
      }
    }
    return trace.build();
  }

  private static boolean seen(Stamps stamps, double jitter, int seed) {
    Trace trace = trace(stamps, jitter, new SplittableRandom(seed));
    return ClockSteps.in(trace, new PositionNoise(NOISE, 0.0)).isPresent();
  }

  @ParameterizedTest
  @CsvSource({
    "0.19, 0.0",
    "0.19, 0.004",
    "0.2, 0.0",
    "0.1, 0.004",
    "0.05, 0.002",
    "-0.08, 0.0",
    "-0.08, 0.002"
  })
  void aStepWhileItMovesIsSeenAndNamed(double step, double jitter) {
    for (int seed = 0; seed < 50; seed++) {
      assertThat(seen((i, t) -> i < 80 ? t : t + step, jitter, seed)).as("seed %d", seed).isTrue();
    }
    Trace trace = trace((i, t) -> i < 80 ? t : t + step, jitter, new SplittableRandom(1));
    assertThat(ClockSteps.in(trace, new PositionNoise(NOISE, 0.0)).orElseThrow())
        .contains("clock of the file seems to have been set");
  }

  /** Before it moves only stamps can tell: what is no whole number of intervals is a step. */
  @Test
  void aStepAtRestIsSeenWhereStampsShowIt() {
    assertThat(seen((i, t) -> i < 4 ? t : t + 0.14, 0.001, 1)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"0.0", "0.002", "0.01", "0.015"})
  void soundStampsAndMissingSamplesAreNoSteps(double jitter) {
    for (int seed = 0; seed < 100; seed++) {
      assertThat(seen((i, t) -> t, jitter, seed)).as("seed %d", seed).isFalse();
      assertThat(seen((i, t) -> i == 80 || i == 81 ? Double.NaN : t, jitter, seed)).isFalse();
    }
  }

  /** A busy computer asks late and then catches up; the position went on meanwhile. */
  @Test
  void aLateSampleIsNoStep() {
    SplittableRandom r = new SplittableRandom(3);
    Trace.Builder trace = Trace.builder(200);
    for (int i = 0; i < 200; i++) {
      double instant = i * PERIOD + (i % 40 == 20 ? 0.06 : 0.0);
      double percent = Math.max(0.0, Math.min(100.0, (instant - 1.0) / 15.0 * 100.0));
      trace.add(instant, 0.0005, percent + NOISE * r.nextGaussian(), false);
    }
    assertThat(ClockSteps.in(trace.build(), new PositionNoise(NOISE, 0.0))).isEmpty();
  }

  /** Stamps to a tenth of a second of samples that come every 0.15 s. */
  @Test
  void coarseStampsAreNoSteps() {
    SplittableRandom r = new SplittableRandom(3);
    Trace.Builder trace = Trace.builder(200);
    for (int i = 0; i < 120; i++) {
      double instant = i * 0.15;
      double percent = Math.max(0.0, Math.min(100.0, (instant - 1.0) / 15.0 * 100.0));
      trace.add(Math.rint(instant * 10.0) / 10.0, 0.05, percent + NOISE * r.nextGaussian(), false);
    }
    assertThat(ClockSteps.in(trace.build(), new PositionNoise(NOISE, 0.0))).isEmpty();
  }
}
