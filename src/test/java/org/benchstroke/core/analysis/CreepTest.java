package org.benchstroke.core.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Units that creep at rest, read in windows of twenty samples, ten approaches from one side. */
class CreepTest {
  private static final double PERIOD = 0.1;
  private static final double ARRIVED = 1.5;
  private static final int READINGS = 20;

  private interface Way {
    /** What is still to go at an instant after the arrival, %. */
    double left(double seconds);
  }

  private static List<Trace> windows(Way way, double noise, double step, SplittableRandom r) {
    List<Trace> windows = new ArrayList<>();
    for (int k = 0; k < 10; k++) {
      double arrived = ARRIVED + 0.3 * r.nextDouble();
      double level = r.nextDouble();
      Trace.Builder trace = Trace.builder(READINGS);
      for (int i = 0; i < READINGS; i++) {
        double t = i * PERIOD;
        double y = level - way.left(arrived + t) + noise * r.nextGaussian();
        trace.add(t, 0.001, step > 0.0 ? Math.rint(y / step) * step : y, false);
      }
      windows.add(trace.build());
    }
    return windows;
  }

  private static double still(Way way) {
    double sum = 0.0;
    for (int i = 0; i < READINGS; i++) {
      sum += way.left(ARRIVED + 0.15 + i * PERIOD) / READINGS;
    }
    return sum;
  }

  /**
   * The bound holds what is still to come, or that is too little to be seen and is said to be so.
   */
  @ParameterizedTest
  @CsvSource({
    "1, 0.1", "1, 0.5", "2, 0.05", "2, 0.5", "6, 0.13", "6, 0.5", "15, 0.1", "15, 0.5", "30, 0.2",
    "30, 0.5", "60, 0.3", "60, 0.5"
  })
  void whatIsStillToComeIsWithinTheBound(double timeConstant, double amplitude) {
    Way way = t -> amplitude * Math.exp(-t / timeConstant);
    int held = 0;
    for (int seed = 0; seed < 200; seed++) {
      double bound =
          Creep.beyondPercent(windows(way, 0.005, 0.00625, new SplittableRandom(seed)), 0.00625);
      held += bound >= still(way) ? 1 : 0;
    }
    assertThat(held / 200.0).isGreaterThanOrEqualTo(0.93);
  }

  private static double[] bounds(int units, double noise, double step) {
    return IntStream.range(0, units)
        .mapToDouble(
            seed ->
                Creep.beyondPercent(
                    windows(t -> 0.0, noise, step, new SplittableRandom(seed)), step))
        .sorted()
        .toArray();
  }

  /** What two seconds of noise can't exclude is left open: little where the noise is. */
  @Test
  void aUnitThatStandsHasLittle() {
    double[] quiet = bounds(200, 0.002, 0.0);
    assertThat(quiet[100]).isZero();
    assertThat(quiet[190]).isLessThan(0.03);
    double[] usual = bounds(200, 0.01, 0.00625);
    assertThat(usual[100]).isLessThan(0.03);
    assertThat(usual[190]).isBetween(0.01, 0.15);
    double[] noisy = bounds(200, 0.03, 0.00625);
    assertThat(noisy[100]).isBetween(0.03, 0.3);
  }

  /** However noisy the rests are, no more is left open than such creeps usually are. */
  @Test
  void noiseAloneIsNoEndlessCreep() {
    assertThat(bounds(50, 0.3, 0.0)[49]).isBetween(0.3, 0.9);
  }

  /** Ten copies of one window tell no more than that one: the slope of its noise is no creep. */
  @Test
  void windowsThatAreAlikeCountAsOne() {
    for (int seed = 0; seed < 50; seed++) {
      Trace one = windows(t -> 0.0, 0.01, 0.0, new SplittableRandom(seed)).get(0);
      assertThat(Creep.beyondPercent(Collections.nCopies(10, one), 0.0))
          .isGreaterThanOrEqualTo(0.8 * Creep.beyondPercent(List.of(one), 0.0));
    }
  }

  /** A reading that can't show less than its step tells nothing of less. */
  @Test
  void aStepHidesACreep() {
    Way way = t -> 0.1 * Math.exp(-t / 60.0);
    double bound = Creep.beyondPercent(windows(way, 0.0, 0.05, new SplittableRandom(1)), 0.05);
    assertThat(bound).isGreaterThan(0.1);
  }

  /** One in which the creep shows by itself has it, however often it is there. */
  @Test
  void aCreepInWindowsThatAreAlikeIsSeen() {
    Way way = t -> 0.5 * Math.exp(-t / 6.0);
    Trace one = windows(way, 0.001, 0.0, new SplittableRandom(1)).get(0);
    assertThat(Creep.beyondPercent(Collections.nCopies(10, one), 0.0))
        .isGreaterThanOrEqualTo(still(way) * 0.95);
  }

  /** A drift has no end; it is held for one of two minutes. */
  @Test
  void aDriftIsBoundedWide() {
    Way way = t -> -0.005 * t;
    double bound = Creep.beyondPercent(windows(way, 0.003, 0.0, new SplittableRandom(1)), 0.0);
    assertThat(bound).isBetween(0.3, 1.2);
  }

  /** The tail of a filter in the feedback is over soon: it costs next to nothing. */
  @Test
  void theTailOfAFilterIsShort() {
    Way way = t -> 0.5 * Math.exp(-t / 0.4);
    double bound = Creep.beyondPercent(windows(way, 0.001, 0.0, new SplittableRandom(1)), 0.0);
    assertThat(bound).isBetween(still(way), 0.03);
  }
}
