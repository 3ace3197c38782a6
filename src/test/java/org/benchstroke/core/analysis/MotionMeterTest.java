package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Starts and time in motion of positions whose course is known. */
class MotionMeterTest {
  private static final double PERIOD = 0.1;

  @Test
  void noiseBelowTheThresholdIsNoStart() {
    SplittableRandom random = new SplittableRandom(7);
    MotionMeter meter = new MotionMeter(0.1, 0.2);
    for (int i = 0; i < 10_000; i++) {
      meter.add(i * PERIOD, 50.0 + random.nextDouble(-0.045, 0.045));
    }
    assertThat(meter.starts()).isZero();
    assertThat(meter.onRatio()).isZero();
  }

  @Test
  void strokesAndTheirPausesAreCounted() {
    MotionMeter meter = new MotionMeter(0.1, 0.2);
    // Ten strokes of 10 s at 10 %/s, each followed by 30 s of rest: 25 % on, 90 starts an hour.
    int sample = 0;
    for (int stroke = 0; stroke < 10; stroke++) {
      boolean opening = stroke % 2 == 0;
      for (int i = 0; i < 400; i++) {
        double done = Math.min(1.0, i / 100.0) * 100.0;
        meter.add(sample++ * PERIOD, opening ? done : 100.0 - done);
      }
    }
    assertThat(meter.starts()).isEqualTo(10);
    assertThat(meter.onRatio()).isCloseTo(0.25, within(0.01));
    assertThat(meter.startsPerHour()).isCloseTo(90.0, within(0.5));
  }

  @Test
  void aTurnWithoutAPauseIsAStart() {
    MotionMeter meter = new MotionMeter(0.1, 0.2);
    // A triangle of 0.9 s: two turns in each period.
    for (int i = 0; i < 900; i++) {
      double phase = (i * 0.05) % 0.9 / 0.9;
      meter.add(i * 0.05, 50.0 + (phase < 0.5 ? phase : 1.0 - phase) * 2.0);
    }
    assertThat(meter.startsPerHour()).isCloseTo(2.0 * 3600.0 / 0.9, within(150.0));
  }
}
