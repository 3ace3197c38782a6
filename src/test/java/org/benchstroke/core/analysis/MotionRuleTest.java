package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.junit.jupiter.api.Test;

/** Noise and rounding are no motion; a motion is none the less seen. All from seeds. */
class MotionRuleTest {

  private static Spread window(Random random, double at, double noise, double step, int count) {
    double[] values = new double[count];
    for (int i = 0; i < count; i++) {
      double value = at + noise * random.nextGaussian();
      values[i] = step > 0.0 ? step * Math.rint(value / step) : value;
    }
    return Spread.of(values);
  }

  @Test
  void noiseAloneIsTakenForMotionNoMoreOftenThanStated() {
    Random random = new Random(5);
    MotionRule rule = new MotionRule(0.0, 0.01);
    int moved = 0;
    int trials = 20_000;
    for (int i = 0; i < trials; i++) {
      Spread before = window(random, 50.0, 0.03, 0.0, 20);
      Spread after = window(random, 50.0, 0.03, 0.0, 20);
      moved += rule.seen(before, after, 1) == Seen.STOOD ? 0 : 1;
    }
    // 1 % of 20 000 is 200; four standard deviations of that count are 56.
    assertThat(moved).isBetween(144, 256);
  }

  @Test
  void atTheUsualProbabilityNoNoiseOfAnySizeAndNoRoundingMoves() {
    Random random = new Random(6);
    for (int i = 0; i < 20_000; i++) {
      double step = 0.02 * random.nextDouble();
      double noise = 0.05 * random.nextDouble();
      double at = 100.0 * random.nextDouble();
      MotionRule rule = new MotionRule(step, 1.0e-7);
      Spread before = window(random, at, noise, step, 20);
      // A drift of less than a step must not count either.
      Spread after = window(random, at + 0.4 * step, noise, step, 25);
      assertThat(rule.seen(before, after, 1)).as("window %d", i).isEqualTo(Seen.STOOD);
    }
  }

  @Test
  void aMotionBeyondTheThresholdIsSeenAndHasItsDirection() {
    Random random = new Random(7);
    MotionRule rule = new MotionRule(0.006, MotionRule.USUAL_FALSE_PROBABILITY);
    for (int i = 0; i < 1000; i++) {
      Spread before = window(random, 50.0, 0.02, 0.006, 20);
      Spread up = window(random, 50.1, 0.02, 0.006, 20);
      assertThat(rule.seen(before, up, 1)).as("window %d", i).isEqualTo(Seen.MOVED);
      assertThat(rule.seen(before, up, -1)).isEqualTo(Seen.MOVED_BACK);
      assertThat(rule.seen(up, before, -1)).isEqualTo(Seen.MOVED);
    }
  }

  @Test
  void aSingleReadingEachTellsNothing() {
    MotionRule rule = new MotionRule(0.0, 0.01);
    assertThat(rule.seen(Spread.of(50.0), Spread.of(60.0), 1)).isEqualTo(Seen.STOOD);
  }

  @Test
  void aSecondMotionIsCountedAndNoiseIsNot() {
    CleanApproach rule = new CleanApproach(0.05, 0.006, 0.2);
    Random random = new Random(8);
    Spread rest = window(random, 50.0, 0.02, 0.006, 20);
    assertThat(rule.motions(approach(random, false, 0.0), rest)).isEqualTo(1);
    assertThat(rule.motions(approach(random, true, 0.4), rest)).isEqualTo(2);
    assertThat(rule.motions(approach(random, true, -0.4), rest)).isEqualTo(2);
  }

  /** From 40 to 50 % at 5 %/s, then perhaps a pulse after 0.5 s. */
  private static Trace approach(Random random, boolean pulse, double size) {
    Trace.Builder trace = Trace.builder(60);
    for (int i = 0; i < 60; i++) {
      double at = Math.min(50.0, 40.0 + 0.5 * i);
      at += pulse && i >= 26 ? size : 0.0;
      trace.add(0.1 * i, 0.001, at + 0.02 * random.nextGaussian(), false);
    }
    return trace.build();
  }
}
