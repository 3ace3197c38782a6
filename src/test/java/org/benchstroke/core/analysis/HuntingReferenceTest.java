package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.benchstroke.ReferenceData;
import org.junit.jupiter.api.Test;

/**
 * Cycles of known period and noise. The signals: oscillation-test-signals.csv, computed outside
 * this project for the oscillation indices of Hägglund 1995, of Miao and Seborg 1999 and of
 * Thornhill, Huang and Zhang 2003 (formulas from memory, numbers computed).
 */
class HuntingReferenceTest {
  private static final PositionNoise QUIET = new PositionNoise(0.0, 0.0);

  /** A sample every 0.1 s: the period of 20 samples is 2 s. */
  private static Hunting of(double[] values) {
    return of(values, QUIET);
  }

  private static Hunting of(double[] values, PositionNoise noise) {
    Trace.Builder trace = Trace.builder(values.length);
    for (int i = 0; i < values.length; i++) {
      trace.add(i * 0.1, 0.0, 50.0 + values[i], false);
    }
    return Hunting.of(trace.build(), noise, 0.05, 0.6, 7.0);
  }

  private static Hunting signal(String column) {
    return of(ReferenceData.column("oscillation-test-signals.csv", column));
  }

  @Test
  void aSineIsALimitCycle() {
    Hunting sine = signal("sine_P20");
    assertThat(sine.regular()).isTrue();
    assertThat(sine.periodSeconds().orElseThrow()).isCloseTo(2.0, within(0.01));
    assertThat(sine.peakToPeakPercent()).isCloseTo(2.0, within(0.03));
    assertThat(sine.turnsPerMinute().value()).isCloseTo(60.0, within(2.0));
    assertThat(sine.coarse()).isFalse();
  }

  /** Normal noise and nothing else, read 50 to 3000 times: once in a thousand is our own choice. */
  @Test
  void noiseAloneHardlyEverLooksLikeAReversal() {
    int restless = 0;
    for (int seed = 0; seed < 1000; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double[] values = new double[50 * (1 + seed % 60)];
      for (int i = 0; i < values.length; i++) {
        values[i] = 0.02 * random.nextGaussian();
      }
      restless += of(values, new PositionNoise(0.02, 0.0)).turns() > 1 ? 1 : 0;
    }
    assertThat(restless).isLessThanOrEqualTo(3);
  }

  /** A motor that reverses at once: closed form, any phase of the samples. */
  @Test
  void aTriangleIsNotCutOffAtItsCorners() {
    for (int seed = 0; seed < 30; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double phase = random.nextDouble();
      double[] values = new double[300];
      for (int i = 0; i < values.length; i++) {
        double f = (i / 33.3 + phase) % 1.0;
        values[i] = 2.0 * (f < 0.5 ? 2.0 * f : 2.0 - 2.0 * f) + 0.01 * random.nextGaussian();
      }
      Hunting triangle = of(values, new PositionNoise(0.01, 0.0));
      double half = triangle.peakToPeak().halfWidth(0.95);
      assertThat(triangle.peakToPeakPercent()).as("seed %d", seed).isCloseTo(2.0, within(half));
      assertThat(half).as("seed %d", seed).isLessThan(0.08);
      assertThat(triangle.turnsPerMinute().value())
          .as("seed %d", seed)
          .isCloseTo(1200.0 / 33.3, within(triangle.turnsPerMinute().halfWidth(0.999)));
    }
  }

  /**
   * Moves of 0.13 s at 6.7 %/s, read every 50 ms, with or without a pause: what lies between two
   * readings is in U.
   */
  @Test
  void whatIsMissedBetweenTwoReadingsIsInTheUncertainty() {
    for (int seed = 0; seed < 60; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      double pause = seed % 2 == 0 ? 0.0 : random.nextDouble(0.1, 0.6);
      double phase = random.nextDouble();
      double half = 0.132 + pause;
      Trace.Builder trace = Trace.builder(400);
      for (int i = 0; i < 400; i++) {
        double f = (i * 0.05 / half + 2.0 * phase) % 2.0;
        double gone = Math.min(1.0, (f % 1.0) * half / 0.132);
        trace.add(i * 0.05, 0.0, 50.0 + 0.88 * (f < 1.0 ? gone : 1.0 - gone), false);
      }
      Hunting quick = Hunting.of(trace.build(), QUIET, 0.05, 0.2, 6.7);
      double u = quick.peakToPeak().halfWidth(0.95);
      assertThat(quick.peakToPeakPercent()).as("seed %d", seed).isCloseTo(0.88, within(u));
    }
  }

  @Test
  void aSquareWaveIsALimitCycle() {
    Hunting square = signal("square_P20");
    assertThat(square.regular()).isTrue();
    assertThat(square.periodSeconds().orElseThrow()).isCloseTo(2.0, within(0.01));
    assertThat(square.peakToPeakPercent()).isCloseTo(2.0, within(1.0e-9));
  }

  /** Its swing decays below the threshold; the mean swing is less than the first. */
  @Test
  void ringingKeepsItsPeriodAndLosesItsSwing() {
    Hunting ringing = signal("ringing_decay0.98_P20");
    assertThat(ringing.periodSeconds().orElseThrow()).isCloseTo(2.0, within(0.1));
    assertThat(ringing.turns()).isLessThan(signal("sine_P20").turns());
    assertThat(ringing.peakToPeakPercent()).isLessThan(1.5);
  }

  /**
   * Thornhill's index of regularity, r = mean/(3 s) of the intervals between crossings, is above 1
   * for the cycles and below for noise.
   */
  @Test
  void regularityTellsACycleFromNoise() {
    SplittableRandom random = new SplittableRandom(7);
    double[] noise = random.doubles(400, -0.5, 0.5).toArray();
    Hunting irregular = of(noise);
    assertThat(irregular.turns()).isGreaterThan(100);
    assertThat(irregular.regular()).isFalse();
    assertThat(regularity(irregular)).isLessThan(1.0);
    assertThat(regularity(signal("sine_P20"))).isGreaterThan(1.0);
    assertThat(regularity(signal("square_P20"))).isGreaterThan(1.0);
  }

  private static double regularity(Hunting hunting) {
    return 1.0 / (3.0 * hunting.irregularity().orElseThrow());
  }

  @Test
  void aCycleOfFewSamplesIsCoarse() {
    double[] few = new double[100];
    for (int i = 0; i < few.length; i++) {
      few[i] = Math.sin(2.0 * Math.PI * i / 6.0 + 0.3);
    }
    assertThat(of(few).coarse()).isTrue();
  }

  /** Read once a cycle it stands still; its fastest cycle says that this proves nothing. */
  @Test
  void oneSampleACycleProvesNothing() {
    Trace.Builder trace = Trace.builder(66);
    for (int i = 0; i < 66; i++) {
      trace.add(i * 0.9, 0.0, 50.0 + 0.45 * Math.sin(2.0 * Math.PI * i * 0.9 / 0.9 + 1.0), false);
    }
    Hunting alias = Hunting.of(trace.build(), QUIET, 0.05, 0.6, 7.0);
    assertThat(alias.turns()).isZero();
    assertThat(alias.insufficient())
        .hasValueSatisfying(w -> assertThat(w).contains("insufficient"));
  }

  /** It went by 1 % and stayed there: no reversal, and no rest. */
  @Test
  void whatGoesAwayDidNotStay() {
    double[] away = new double[200];
    double[] little = new double[200];
    for (int i = 100; i < 200; i++) {
      away[i] = 1.0;
      little[i] = 0.3;
    }
    assertThat(of(away).turns()).isZero();
    assertThat(of(away).wandered(0.5)).isTrue();
    assertThat(of(little).wandered(0.5)).isFalse();
  }

  /**
   * Just more than noise reaches, but for the step of the reading: each turn reaches the others.
   */
  @Test
  void turnsThatNoiseDoesNotPartAreCountedOnly() {
    Trace.Builder trace = Trace.builder(40);
    for (int i = 0; i < 40; i++) {
      trace.add(i * 0.1, 0.0, i % 2 == 0 ? 50.0 : 50.62, false);
    }
    Hunting hidden = Hunting.of(trace.build(), new PositionNoise(0.1, 0.05), 0.05, 0.6, 7.0);
    assertThat(hidden.turns()).isEqualTo(38);
    assertThat(hidden.periodSeconds()).isEmpty();
    assertThat(hidden.irregularity()).isEmpty();
    assertThat(hidden.regular()).isFalse();
    double perMinute = 38 / hidden.seconds() * 60.0;
    assertThat(hidden.turnsPerMinute().value()).isCloseTo(perMinute, within(1.0e-9));
    assertThat(hidden.turnsPerMinute().parts())
        .allSatisfy(part -> assertThat(part.standard()).isFinite());
  }
}
