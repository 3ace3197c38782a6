package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class NoiseTest {
  @Test
  void normalNumbersHaveMeanZeroAndDeviationOne() {
    Noise noise = new Noise(42);
    double sum = 0.0;
    double squares = 0.0;
    int beyondTwo = 0;
    int n = 100_000;
    for (int i = 0; i < n; i++) {
      double x = noise.normal();
      sum += x;
      squares += x * x;
      beyondTwo += Math.abs(x) > 1.959964 ? 1 : 0;
    }
    assertThat(sum / n).isCloseTo(0.0, within(0.015));
    assertThat(Math.sqrt(squares / n)).isCloseTo(1.0, within(0.01));
    // 5 % of a normal distribution lies beyond 1.96 σ.
    assertThat(beyondTwo / (double) n).isCloseTo(0.05, within(0.003));
  }

  @Test
  void symmetricNumbersFillTheirRange() {
    Noise noise = new Noise(1);
    double low = 0.0;
    double high = 0.0;
    for (int i = 0; i < 10_000; i++) {
      double x = noise.symmetric();
      assertThat(x).isBetween(-1.0, 1.0);
      low = Math.min(low, x);
      high = Math.max(high, x);
    }
    assertThat(low).isLessThan(-0.999);
    assertThat(high).isGreaterThan(0.999);
  }
}
