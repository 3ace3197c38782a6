package org.benchstroke.core.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Over seeds: what a chart of pure chance does. */
class ChartPropertyTest {
  private static final Baseline KNOWN = new Baseline.Known(0.0, 1.0);

  /** By the normal distribution: 0.2700 % of the points lie beyond 3σ. */
  @Test
  void falseAlarmsOfThreeSigma() {
    int n = 400_000;
    double[] values = normal(new SplittableRandom(1), n);
    ControlChart chart = (ControlChart) Charts.individuals(values, KNOWN, ChartRule.LIMIT_ONLY);
    double p = 0.0026998;
    double alarms = chart.signals().size() / (double) n;
    assertThat(alarms).isCloseTo(p, within(4.0 * Math.sqrt(p * (1.0 - p) / n)));
  }

  /**
   * Source: NIST/SEMATECH e-Handbook 6.3.2 after Champ and Woodall (1987), from memory: with the
   * four rules of the zones a chart of pure chance gives an alarm every 91.75 points on average,
   * with the limits alone every 370.4.
   */
  @Test
  void runLengthWithAndWithoutTheRulesOfTheZones() {
    assertThat(runLength(ChartRule.ZONES, 4000, 2)).isCloseTo(91.75, within(4.0 * 91.75 / 63.2));
    assertThat(runLength(ChartRule.LIMIT_ONLY, 1000, 3))
        .isCloseTo(370.4, within(4.0 * 370.4 / 31.6));
  }

  /**
   * Source: Lucas and Saccucci (1990), from memory: with λ = 0.25, L = 2.998 the EWMA chart has a
   * run length of 500, and of some 11 where the mean has moved by 1σ.
   */
  @Test
  void runLengthOfAnEwmaChart() {
    assertThat(ewmaRunLength(0.0, 1000, 4)).isCloseTo(500.0, within(4.0 * 500.0 / 31.6));
    assertThat(ewmaRunLength(1.0, 2000, 5)).isCloseTo(11.0, within(0.5));
  }

  /** By its derivation: unbiased, and as uncertain as the degrees of freedom say. */
  @Test
  void sigmaOfAMovingRangeAndItsDegreesOfFreedom() {
    SplittableRandom random = new SplittableRandom(6);
    int runs = 20_000;
    double sum = 0.0;
    double squares = 0.0;
    double degrees = 0.0;
    for (int i = 0; i < runs; i++) {
      Scale scale =
          ((Scale.Found) Scale.byMovingRange(normal(random, 25), new Baseline.First(25), 2))
              .scale();
      sum += scale.sigma();
      squares += scale.sigma() * scale.sigma();
      degrees = scale.degrees();
    }
    double mean = sum / runs;
    double variance = squares / runs - mean * mean;
    assertThat(mean).isCloseTo(1.0, within(4.0 * 0.19 / Math.sqrt(runs)));
    assertThat(variance).isCloseTo(1.0 / (2.0 * degrees), within(0.04 / (2.0 * degrees)));
  }

  private static double runLength(Set<ChartRule> rules, int runs, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    long sum = 0;
    for (int run = 0; run < runs; run++) {
      // long enough that hardly any run of chance outlasts it, and then counted in full
      int length = 600;
      ControlChart chart;
      do {
        length *= 4;
        chart = (ControlChart) Charts.individuals(normal(random.split(), length), KNOWN, rules);
      } while (chart.signals().isEmpty());
      sum += chart.signals().get(0).index() + 1;
    }
    return sum / (double) runs;
  }

  private static double ewmaRunLength(double shift, int runs, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Weighting weighting = new Weighting(0.25, 2.998, Weighting.Limits.STEADY);
    long sum = 0;
    for (int run = 0; run < runs; run++) {
      double[] values = normal(random, shift > 0.0 ? 400 : 8000);
      for (int i = 0; i < values.length; i++) {
        values[i] += shift;
      }
      ControlChart chart = (ControlChart) Charts.ewma(values, KNOWN, weighting);
      sum += chart.signals().get(0).index() + 1;
    }
    return sum / (double) runs;
  }

  static double[] normal(SplittableRandom random, int n) {
    double[] values = new double[n];
    for (int i = 0; i < n; i++) {
      values[i] = random.nextGaussian();
    }
    return values;
  }
}
