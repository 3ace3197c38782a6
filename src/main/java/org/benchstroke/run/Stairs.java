package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.CleanApproach;
import org.benchstroke.core.analysis.MotionRule;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.analysis.Staircase;
import org.benchstroke.core.analysis.Staircase.Next;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.procedure.Action;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/**
 * Climbs staircases: approaches a place, then changes the signal as the search asks for, and waits
 * for rest after each change. The runner's thread only.
 */
final class Stairs {
  private final UnitType unit;
  private final RunLog log;
  private final Signal signal;
  private final Rest rest;
  private final Watching watching;
  private final MotionRule rule;
  private final CleanApproach oneMotion;

  Stairs(RunPlan plan, RunLog log, Signal signal, Rest rest, Watching watching) {
    this.unit = plan.unit();
    this.log = log;
    this.signal = signal;
    this.rest = rest;
    this.watching = watching;
    double resolution = plan.bench().positionResolutionPercent(unit);
    this.rule = new MotionRule(resolution, MotionRule.USUAL_FALSE_PROBABILITY);
    this.oneMotion =
        new CleanApproach(
            unit.practice().restBandPercent(),
            resolution,
            unit.pauseSeconds(plan.bench().samplePeriodSeconds()));
  }

  /**
   * Searches to the end.
   *
   * @return where the unit rests then, %; empty if it does not
   */
  OptionalDouble perform(Action.Staircase action) throws TestVoid, RunEnded {
    Staircase search =
        new Staircase(
            action.coarsePercent(),
            action.finestPercent(),
            action.mostPercent(),
            unit.practice().retakes());
    Arrival last = Arrival.none();
    Optional<Spread> stood = Optional.empty();
    boolean first = true;
    while (true) {
      Next next = search.next();
      if (next instanceof Next.Come) {
        if (!first) {
          log.again();
        }
        first = false;
        last = come(action);
        stood = last.window();
        search.came(clean(last));
      } else if (next instanceof Next.Probe probe && stood.isPresent()) {
        last = probe(action, probe.totalPercent(), search.probes() + 1);
        tell(search, stood.get(), last, action.sign());
      } else {
        return last.restPercent();
      }
    }
  }

  private void tell(Staircase search, Spread stood, Arrival now, int sign) {
    if (now.window().isPresent()) {
      search.saw(rule.seen(stood, now.window().get(), sign));
    } else {
      search.unclear();
    }
  }

  private boolean clean(Arrival arrival) {
    return arrival.clean()
        && arrival.window().isPresent()
        && oneMotion.motions(arrival.seen(), arrival.window().get()) == 1;
  }

  private Arrival come(Action.Staircase action) throws TestVoid, RunEnded {
    watching.rest();
    go(action, Leg.LEAD_IN, " start", action.from());
    return go(action, Leg.ARRIVAL, "", action.at());
  }

  private Arrival go(Action.Staircase action, Leg leg, String ending, Position to)
      throws TestVoid, RunEnded {
    double change = to.percent() - signal.setpoint();
    return changed(action, leg, ending, to, change, unit.practice().restEarliestSeconds());
  }

  /** No faster than the pause of the controller and the motion of the step. */
  private Arrival probe(Action.Staircase action, double total, int number)
      throws TestVoid, RunEnded {
    Position to = Position.ofPercent(action.at().percent() + action.sign() * total);
    double change = to.percent() - signal.setpoint();
    return changed(action, Leg.STAIR, " #" + number, to, change, unit.offSeconds());
  }

  private Arrival changed(
      Action.Staircase action, Leg leg, String ending, Position to, double change, double earliest)
      throws TestVoid, RunEnded {
    double travel = unit.travelSeconds(change);
    Wait wait =
        new Wait(
            action.aim(),
            leg,
            action.aim().words() + ending,
            to.percent(),
            change > 0.0 ? "up" : "down",
            action.cycle(),
            signal.command(to).answeredNanos(),
            earliest + travel,
            unit.practice().restTimeoutSeconds() + 2.0 * travel,
            true);
    return rest.await(wait, "settling");
  }
}
