package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;

/**
 * White noise of a known deviation on steady motion: what is found must scatter around it as χ²
 * says (Commons Math; the degrees of freedom of sums of correlated squares by their correlations).
 */
class StridesTest {
  private static final double SPEED = 100.0 / 15.0;
  private static final double SIGMA = 0.2;

  /** A traverse with noise everywhere, or between two places alone. */
  private static Trace traverse(long seed, double from, double to, double bend) {
    SplittableRandom random = new SplittableRandom(seed);
    Trace.Builder trace = Trace.builder(200);
    double seconds = 0.0;
    for (double y = 0.0; y <= 100.0; y = SPEED * seconds + bend * seconds * seconds) {
      double noise = y >= from && y <= to ? SIGMA * random.nextGaussian() : 0.0;
      trace.add(seconds, 0.001, y + noise, false);
      seconds += 0.05 + 0.01 * random.nextDouble();
    }
    return trace.build();
  }

  private static Strides of(Trace trace) {
    return Strides.of(trace, trace, SPEED);
  }

  @Test
  void steadyMotionGivesNothingHoweverUnevenlyItIsRead() {
    assertThat(of(traverse(1, 1.0, 0.0, 0.0)).worst()).isCloseTo(0.0, within(1e-9));
  }

  @Test
  void changingSpeedIsNoNoise() {
    assertThat(of(traverse(1, 1.0, 0.0, 0.1)).worst()).isLessThan(1e-3);
  }

  @Test
  void noiseOfOneStretchIsFoundThere() {
    for (long seed = 1; seed <= 50; seed++) {
      Strides even = of(traverse(seed, 40.0, 50.0, 0.0));
      assertThat(even.worstAt()).isBetween(37.0, 53.0);
      assertThat(even.usual()).isLessThan(0.01);
      assertThat(even.stamps()).isCloseTo(SPEED * 0.001, within(1e-9));
    }
  }

  /** Whether all of the travel is noisy or one stretch of it, the bound holds. */
  @Test
  void theBoundCovers() {
    for (double from : new double[] {-1.0, 40.0}) {
      int inside = 0;
      for (long seed = 1; seed <= 2_000; seed++) {
        Strides even = of(traverse(seed, from, from < 0.0 ? 101.0 : 45.0, 0.0));
        inside += Math.abs(even.worst() - SIGMA) <= even.halfWidth(0.95) ? 1 : 0;
      }
      assertThat(inside / 2_000.0).as("from %s", from).isGreaterThan(0.95);
    }
  }

  /**
   * The largest of 18 stretches that are all alike: its probability to be smaller is the 18th power
   * of that of one, and so spread evenly.
   */
  @Test
  void theLargestOfAllIsSpreadAsTheLargestOfSoMany() {
    int tails = 0;
    double sum = 0.0;
    int many = 2_000;
    for (long seed = 1; seed <= many; seed++) {
      Strides even = of(traverse(seed, -1.0, 101.0, 0.0));
      double freedom = even.degreesOfFreedom();
      double seen = freedom * even.worst() * even.worst() / (SIGMA * SIGMA);
      double smaller =
          Math.pow(new ChiSquaredDistribution(freedom).cumulativeProbability(seen), 18.0);
      sum += smaller;
      tails += smaller < 0.025 || smaller > 0.975 ? 1 : 0;
    }
    assertThat(sum / many).isCloseTo(0.5, within(0.05));
    assertThat(100.0 * tails / many).isBetween(2.0, 9.0);
  }
}
