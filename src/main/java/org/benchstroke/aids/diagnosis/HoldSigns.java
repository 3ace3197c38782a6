package org.benchstroke.aids.diagnosis;

import java.util.List;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.TestTrace;

/** The signs of a unit that is held at a setpoint: whether, where and how regularly it moves. */
final class HoldSigns {
  private final List<TestTrace.OfHold> holds;
  private final double deadBandPercent;
  private final Signs.Taker taker;

  HoldSigns(JudgedRun run, Signs.Taker taker) {
    this.taker = taker;
    this.deadBandPercent = run.unit().deadBandPercent();
    this.holds =
        run.traces().stream()
            .filter(TestTrace.OfHold.class::isInstance)
            .map(TestTrace.OfHold.class::cast)
            .filter(h -> h.hunting().isPresent())
            .toList();
  }

  void find() {
    if (holds.isEmpty()) {
      return;
    }
    boolean coarse = holds.stream().anyMatch(h -> hunting(h).insufficient().isPresent());
    taker.add(Sign.SAMPLED_TOO_SLOWLY, coarse, coarse ? "every " + interval() + " s" : "");
    if (coarse) {
      return;
    }
    List<TestTrace.OfHold> moving = holds.stream().filter(HoldSigns::moves).toList();
    long steady = moving.stream().filter(h -> hunting(h).limitCycle(deadBandPercent)).count();
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
    return hunting(hold).turns() > 1;
  }

  private String interval() {
    return Numbers.significant(hunting(holds.get(0)).intervalSeconds(), 2);
  }

  private static Hunting hunting(TestTrace.OfHold hold) {
    return hold.hunting().orElseThrow();
  }
}
