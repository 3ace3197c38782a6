package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.benchstroke.core.model.Noise;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NoiseRangeTest {
  /**
   * The mean range of n normal readings is the integral of 1 − P(range ≤ q). Source: the factor d2
   * of control charts (tables of ISO 7870-2 and ASTM MNL 7), from memory; confidence: high.
   */
  @ParameterizedTest
  @CsvSource({"5, 2.326", "10, 3.078", "20, 3.735", "25, 3.931"})
  void theMeanRangeIsTheTabulatedD2(int n, double d2) {
    // The mean of a quantile over all probabilities is the mean.
    double sum = 0;
    int steps = 400;
    for (int i = 0; i < steps; i++) {
      sum += NoiseRange.factor(n, (i + 0.5) / steps);
    }
    assertThat(sum / steps).isCloseTo(d2, within(0.004));
  }

  @ParameterizedTest
  @CsvSource({"5, 0.95", "20, 0.99", "50, 0.99"})
  void theShareOfSimulatedRangesWithinTheQuantileIsItsProbability(int n, double probability) {
    Noise noise = new Noise(20260601);
    double factor = NoiseRange.factor(n, probability);
    int trials = 40_000;
    int inside = 0;
    for (int i = 0; i < trials; i++) {
      double[] sample = new double[n];
      Arrays.setAll(sample, j -> noise.normal());
      double range =
          Arrays.stream(sample).max().orElseThrow() - Arrays.stream(sample).min().orElseThrow();
      inside += range <= factor ? 1 : 0;
    }
    double standard = Math.sqrt(probability * (1 - probability) / trials);
    assertThat(inside / (double) trials).isCloseTo(probability, within(4 * standard));
  }

  @Test
  void moreReadingsOrMoreConfidenceNeedMoreRoom() {
    assertThat(NoiseRange.factor(20, 0.99)).isGreaterThan(NoiseRange.factor(20, 0.95));
    assertThat(NoiseRange.factor(1000, 0.99)).isGreaterThan(NoiseRange.factor(20, 0.99));
  }
}
