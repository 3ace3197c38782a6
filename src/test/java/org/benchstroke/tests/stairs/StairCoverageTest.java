package org.benchstroke.tests.stairs;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.benchstroke.core.analysis.MotionRule.Seen;
import org.benchstroke.core.analysis.Staircase;
import org.benchstroke.core.analysis.Staircase.Next;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.junit.jupiter.api.Test;

/**
 * How often U holds the true mean change that moves a unit whose place of rest scatters from one
 * approach to the next; 100 units of six searches of each kind, from seeds.
 */
class StairCoverageTest {
  private static final int UNITS = 100;
  private static final int PLACES = 6;
  private static final double FINEST = 0.05;

  private static Next.Found search(double coarse, double moves, double scatter, Random random) {
    Staircase search = new Staircase(coarse, FINEST, 5.0, 2);
    double now = moves;
    while (true) {
      Next next = search.next();
      if (next instanceof Next.Come) {
        now = moves + scatter * random.nextGaussian();
        search.came(true);
      } else if (next instanceof Next.Probe probe) {
        search.saw(probe.totalPercent() >= now ? Seen.MOVED : Seen.STOOD);
      } else {
        return (Next.Found) next;
      }
    }
  }

  /** Three places, both directions, as in a whole test. */
  private static double coverage(double coarse, double scatter, int cycles) {
    int held = 0;
    for (int unit = 0; unit < UNITS; unit++) {
      Random random = new Random(1000L + unit);
      List<Double> truths = new ArrayList<>();
      List<List<Next.Found>> searches = new ArrayList<>();
      for (int place = 0; place < PLACES; place++) {
        double moves = 0.5 + 1.5 * random.nextDouble();
        List<Next.Found> found = new ArrayList<>();
        for (int i = 0; i < cycles; i++) {
          found.add(search(coarse, moves, scatter, random));
        }
        truths.add(moves);
        searches.add(found);
      }
      Optional<Component> pooled = StairMeasures.scatter("dead band", searches);
      for (int place = 0; place < PLACES; place++) {
        List<Next.Found> found = searches.get(place);
        double mean = found.stream().mapToDouble(Next.Found::middlePercent).average().orElseThrow();
        double half = new Budget("%", StairMeasures.components(found, pooled)).expand().half();
        held += Math.abs(mean - truths.get(place)) <= half ? 1 : 0;
      }
    }
    return (double) held / (UNITS * PLACES);
  }

  @Test
  void coverageIsAsStatedWithTwoCyclesOrMore() {
    for (double scatter : new double[] {0.0, 0.01, 0.03, 0.06}) {
      for (double coarse : new double[] {FINEST, 8 * FINEST}) {
        for (int cycles : new int[] {2, 3}) {
          // 95 % of 600 has a standard deviation of 0.9 %: 93 % is two of them lower.
          assertThat(coverage(coarse, scatter, cycles))
              .as("scatter %s, coarse %s, %s cycles", scatter, coarse, cycles)
              .isBetween(0.93, 0.999);
        }
      }
    }
  }

  @Test
  void oneCycleAloneWouldHideTheScatter() {
    assertThat(coverage(FINEST, 0.06, 1)).isLessThan(0.5);
  }
}
