package org.benchstroke.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
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

  /** Twice in a thousand. */
  @Test
  void aUnitThatStandsHasNone() {
    int none = 0;
    for (int seed = 0; seed < 1000; seed++) {
      SplittableRandom r = new SplittableRandom(seed);
      none += Creep.beyondPercent(windows(t -> 0.0, 0.01, 0.00625, r), 0.00625) == 0.0 ? 1 : 0;
    }
    assertThat(none).isGreaterThanOrEqualTo(990);
  }

  /** Ten copies of one window tell no more than that one: the slope of its noise is no creep. */
  @Test
  void windowsThatAreAlikeCountAsOne() {
    int none = 0;
    for (int seed = 0; seed < 1000; seed++) {
      Trace one = windows(t -> 0.0, 0.01, 0.0, new SplittableRandom(seed)).get(0);
      none += Creep.beyondPercent(Collections.nCopies(10, one), 0.0) == 0.0 ? 1 : 0;
    }
    assertThat(none).isGreaterThanOrEqualTo(990);
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
