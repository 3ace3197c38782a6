package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.distribution.TDistribution;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestTrace;

/**
 * A unit that hunts never rests, but it shows where it stops: each turn of its limit cycle stands
 * as far beyond the setpoint as it coasts beyond h_off, so that half the way from turn to turn is
 * coast − h_off. Only h_on < coast − h_off is known of its start threshold. Immutable.
 *
 * @param lead h_off − coast, below 0, % of travel
 * @param scatter standard deviation of one half way, %
 * @param turns how many turns were seen
 * @param holds at how many setpoints
 */
record LimitCycle(FittedValue lead, double scatter, int turns, int holds) {
  private static final int LEAST_TURNS = 6;
  private static final int LEAST_HOLDS = 2;

  /** From the holds of a hunting test; empty with fewer than two that hunted. */
  static Optional<LimitCycle> of(JudgedRun run) {
    List<Double> means = new ArrayList<>();
    double squares = 0.0;
    int turns = 0;
    for (TestTrace trace : run.traces()) {
      if (trace instanceof TestTrace.OfHold hold && hunts(hold, run.unit().deadBandPercent())) {
        Spread half = Spread.of(halfWays(hold));
        means.add(half.mean());
        squares += half.deviation() * half.deviation() * (half.count() - 1.0);
        turns += hold.turning().size();
      }
    }
    if (means.size() < LEAST_HOLDS) {
      return Optional.empty();
    }
    Spread all = Spread.of(means);
    double k = new TDistribution(means.size() - 1.0).inverseCumulativeProbability(0.975);
    double scatter = Math.sqrt(squares / (turns - 2.0 * means.size()));
    return Optional.of(
        new LimitCycle(
            new FittedValue(-all.mean(), k * all.ofMean()), scatter, turns, means.size()));
  }

  private static boolean hunts(TestTrace.OfHold hold, double deadBandPercent) {
    return hold.turning().size() >= LEAST_TURNS
        && hold.hunting().filter(h -> h.limitCycle(deadBandPercent)).isPresent();
  }

  /** The first and the last turn may be cut off by the hold's ends. */
  private static double[] halfWays(TestTrace.OfHold hold) {
    List<Integer> at = hold.turning();
    double[] half = new double[at.size() - 1];
    for (int i = 0; i < half.length; i++) {
      double way = hold.trace().percent(at.get(i + 1)) - hold.trace().percent(at.get(i));
      half[i] = Math.abs(way) / 2.0;
    }
    return half;
  }
}
