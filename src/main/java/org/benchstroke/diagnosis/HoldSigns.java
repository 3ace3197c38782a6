package org.benchstroke.diagnosis;

import java.util.List;
import org.benchstroke.analysis.Trace;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.TestTrace;

/** The signs of a unit that is held at a setpoint: whether, where and how regularly it moves. */
final class HoldSigns {
  /** Half periods that scatter by less, relative to their mean, are a steady period. */
  private static final double STEADY = 0.35;

  private static final int LEAST_TURNS = 4;

  private final JudgedRun run;
  private final List<TestTrace.OfHold> holds;
  private final Signs.Taker taker;

  HoldSigns(JudgedRun run, Signs.Taker taker) {
    this.run = run;
    this.taker = taker;
    this.holds =
        run.traces().stream()
            .filter(TestTrace.OfHold.class::isInstance)
            .map(TestTrace.OfHold.class::cast)
            .filter(h -> h.trace().size() > 20 && h.leastPercent() > 0.0)
            .toList();
  }

  void find() {
    if (holds.isEmpty()) {
      return;
    }
    boolean coarse = holds.stream().anyMatch(this::coarse);
    taker.add(Sign.SAMPLED_TOO_SLOWLY, coarse, coarse ? "every " + interval() + " s" : "");
    if (coarse) {
      return;
    }
    List<TestTrace.OfHold> moving = holds.stream().filter(HoldSigns::moves).toList();
    long steady = moving.stream().filter(HoldSigns::steady).count();
    boolean most = 2 * moving.size() > holds.size();
    boolean cycle = steady > 0 && 2 * steady >= moving.size();
    String figures = moving.isEmpty() ? "" : moving.size() + " of " + holds.size() + " holds";
    taker.add(Sign.LIMIT_CYCLE, cycle, cycle ? figures : "");
    if (holds.size() > 2) {
      taker.add(Sign.RESTLESS_EVERYWHERE, most && !cycle, figures);
      boolean one = moving.size() == 1 && !cycle;
      taker.add(
          Sign.RESTLESS_AT_ONE_PLACE,
          one,
          one ? "at " + Numbers.plain(moving.get(0).setpointPercent()) + " %" : "");
    }
  }

  /** One correction is none: it came to rest too near to its threshold. */
  private static boolean moves(TestTrace.OfHold hold) {
    return hold.turning().size() > 1;
  }

  private static boolean steady(TestTrace.OfHold hold) {
    List<Integer> turning = hold.turning();
    if (turning.size() < LEAST_TURNS) {
      return false;
    }
    double sum = 0.0;
    double squares = 0.0;
    int n = turning.size() - 1;
    for (int i = 0; i < n; i++) {
      double half = hold.trace().seconds(turning.get(i + 1)) - hold.trace().seconds(turning.get(i));
      sum += half;
      squares += half * half;
    }
    double mean = sum / n;
    return Math.sqrt(Math.max(0.0, squares / n - mean * mean)) < STEADY * mean;
  }

  /** A cycle of the unit could hide between four samples. */
  private boolean coarse(TestTrace.OfHold hold) {
    double travel = 2.0 * run.unit().travelSeconds(run.unit().deadBandPercent());
    double fastest = Math.max(2.0 * run.unit().offSeconds(), travel);
    return 4.0 * interval(hold.trace()) > fastest;
  }

  private String interval() {
    return Numbers.significant(interval(holds.get(0).trace()), 2);
  }

  private static double interval(Trace trace) {
    return (trace.seconds(trace.size() - 1) - trace.seconds(0)) / (trace.size() - 1.0);
  }
}
