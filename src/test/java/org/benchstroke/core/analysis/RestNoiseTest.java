package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The mean of readings that follow each other. Variance of such a mean: JCGM 100:2008 F.1.2, 4.2.7
 * (from memory); of an autoregression of first order in closed form (standard result of
 * statistics).
 */
class RestNoiseTest {
  private static final int READINGS = 20;

  /** (1 + φ)/(1 − φ)/n − 2φ(1 − φⁿ)/(n²(1 − φ)²). */
  @Test
  void varianceOfTheMeanIsThatOfTheClosedForm() {
    for (NoisePattern pattern : NoisePattern.all()) {
      double f = pattern.follows();
      double n = READINGS;
      double ar =
          (1 + f) / (1 - f) / n - 2 * f * (1 - Math.pow(f, n)) / (n * n * (1 - f) * (1 - f));
      double closed = pattern.share() * ar + (1 - pattern.share()) / n;
      assertThat(pattern.ofMean(READINGS)).isCloseTo(closed, within(1e-12));
    }
  }

  @Test
  void withoutAWindowItIsTheUsualMean() {
    RestNoise.Known known = RestNoise.INDEPENDENT.ofMean(0.1, 20);
    assertThat(known.standard()).isCloseTo(0.1 / Math.sqrt(20), within(1e-9));
    assertThat(known.degrees()).isCloseTo(19.0, within(1e-9));
    assertThat(RestNoise.INDEPENDENT.ofOne(0.1, 20).standard()).isCloseTo(0.1, within(1e-12));
    assertThat(RestNoise.INDEPENDENT.worth(20)).isCloseTo(20.0, within(1e-9));
  }

  /** The degrees of s² are n − 1 without correlation and fall to one with much of it. */
  @Test
  void degreesFollowTheCorrelation() {
    assertThat(NoisePattern.all().get(0).degrees(20)).isCloseTo(19.0, within(1e-9));
    assertThat(new NoisePattern(0.99, 1.0, 1.0).degrees(20)).isBetween(1.0, 3.0);
  }

  /**
   * Twenty windows of a run; each mean ± U by its own scatter. What the windows can't tell may make
   * U wide, so that more is allowed above: noise that is no autoregression, and what goes on for as
   * long as the window.
   */
  @ParameterizedTest
  @CsvSource({
    "ar 0, 93, 98.5",
    "ar 0.3, 93, 98",
    "ar 0.5, 93, 98",
    "ar 0.8, 93, 98",
    "ar 0.9, 93, 99",
    "ar 0.95, 93, 99",
    "ar 0.98, 93, 98",
    "average 4, 93, 100",
    "average 8, 93, 100",
    "half 0.9, 93, 99.5",
    "half 0.95, 93, 99",
    "hum 0.02, 93, 100",
    "hum 0.06, 93, 100",
    "hum 0.37, 93, 100",
    "steps 0.9, 90, 99.5",
    "drift 0.03, 93, 100"
  })
  void intervalsOfMeansHoldTheTruth(String kind, double least, double most) {
    SplittableRandom random = new SplittableRandom(5);
    int held = 0;
    int all = 0;
    for (int run = 0; run < 60; run++) {
      List<double[]> windows = new ArrayList<>();
      for (int i = 0; i < 20; i++) {
        windows.add(MadeUpNoise.of(kind, READINGS, random));
      }
      RestNoise noise = RestNoise.of(windows);
      double rounding = kind.startsWith("steps") ? 0.95 * MadeUpNoise.STEP / 2.0 : 0.0;
      for (double[] window : windows) {
        Spread spread = Spread.of(window);
        RestNoise.Known known = noise.ofMean(spread.deviation(), READINGS);
        double half =
            known.standard()
                * new TDistribution(known.degrees()).inverseCumulativeProbability(0.975);
        held += Math.abs(spread.mean()) <= Math.hypot(half, rounding) ? 1 : 0;
        all++;
      }
    }
    assertThat(100.0 * held / all).as(kind).isBetween(least, most);
  }

  @Test
  void whatTheReadingsAreWorthIsSaid() {
    SplittableRandom random = new SplittableRandom(7);
    List<double[]> windows = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      windows.add(MadeUpNoise.of("ar 0.8", READINGS, random));
    }
    double exact = 1.0 / new NoisePattern(0.8, 1.0, 1.0).ofMean(READINGS);
    assertThat(RestNoise.of(windows).worth(READINGS)).isBetween(0.6 * exact, 1.3 * exact);
  }
}
