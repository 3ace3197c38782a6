package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.UnitType;

/**
 * Carries out the actions of a test: commands, waits for rest, watches. The runner's thread only.
 */
final class Conductor {
  private final RunPlan plan;
  private final UnitType unit;
  private final Bench bench;
  private final RunLog log;
  private final Sampler sampler;
  private final Signal signal;
  private final Rest rest;
  private final SignalAway signalAway;
  private final Watching watching;
  private final PowerAway powerAway;
  private final NoteTaker notes;
  private final Stairs stairs;
  private double nominalSeconds;

  Conductor(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Signal signal,
      Rest rest,
      MotorSupply supply,
      DutyWatch duty,
      ProgressLine progress,
      NoteTaker notes) {
    this.plan = plan;
    this.unit = plan.unit();
    this.bench = bench;
    this.log = log;
    this.sampler = sampler;
    this.notes = notes;
    this.signal = signal;
    this.rest = rest;
    this.signalAway = new SignalAway(unit, log, signal, rest);
    this.watching = new Watching(clock, log, sampler, signal, progress, duty);
    SupplyOff supplyOff = new SupplyOff(unit, log, sampler, true, RunEnded.How.FAULT);
    this.powerAway = new PowerAway(clock, log, sampler, signal, rest, supply, progress, supplyOff);
    this.stairs = new Stairs(plan, log, signal, rest, watching);
  }

  /** The unit's own motion at nominal speed and the rest windows of all that was done so far, s. */
  double nominalSeconds() {
    return nominalSeconds;
  }

  /**
   * Requires that the source still makes what it was set to.
   *
   * @throws TestVoid if it lost its setting
   */
  void requireSource() throws TestVoid {
    signal.requireHeld();
  }

  /** A test begins: what the source was set to before, the safe signal may have replaced. */
  void begin() {
    signal.overridden();
  }

  /**
   * Proves that the unit stands still without its supply, before that is taken away in earnest.
   *
   * @throws RunEnded if it moves
   */
  void proveSupplyOff() throws TestVoid, RunEnded {
    powerAway.prove();
  }

  /**
   * Does one action.
   *
   * @return where the unit came to rest, %; empty if it did not
   */
  OptionalDouble perform(Action action) throws TestVoid, RunEnded {
    if (action instanceof Action.Lose lose) {
      nominalSeconds += lose.seconds();
      return signalAway.perform(lose).restPercent();
    }
    if (action instanceof Action.Note note) {
      notes.perform(note);
      return OptionalDouble.empty();
    }
    if (action instanceof Action.Cut cut) {
      nominalSeconds += cut.seconds();
      return powerAway.perform(cut).restPercent();
    }
    if (action instanceof Action.Hold hold) {
      nominalSeconds += hold.seconds();
      watching.hold(hold);
      return OptionalDouble.empty();
    }
    if (action instanceof Action.Ramp ramp) {
      nominalSeconds += ramp.seconds();
      watching.ramp(ramp);
      return OptionalDouble.empty();
    }
    if (action instanceof Action.Staircase staircase) {
      nominalSeconds += staircase.seconds();
      return stairs.perform(staircase);
    }
    nominalSeconds += watching.rest();
    Action.Approach approach = (Action.Approach) action;
    Arrival arrival = arrive(approach);
    for (int i = 0; i < unit.practice().retakes() && mustRetake(approach, arrival); i++) {
      log.again();
      goBack(approach);
      arrival = arrive(approach);
    }
    return arrival.restPercent();
  }

  private static boolean mustRetake(Action.Approach approach, Arrival arrival) {
    return approach.clean()
        && approach.from().isPresent()
        && arrival.restPercent().isPresent()
        && !arrival.clean();
  }

  /** To where an approach begins that is made again. */
  private void goBack(Action.Approach approach) throws TestVoid, RunEnded {
    Position start = Position.ofPercent(approach.from().orElseThrow());
    OptionalDouble from = OptionalDouble.of(approach.to().percent());
    Action.Approach back = new Action.Approach(approach.aim(), from, start, 0, false, 0.0);
    approach(back, Leg.LEAD_IN, "retake " + Numbers.plain(start.percent()));
  }

  private Arrival arrive(Action.Approach approach) throws TestVoid, RunEnded {
    Leg leg = approach.aim() instanceof Aim.LeadIn ? Leg.LEAD_IN : Leg.ARRIVAL;
    return approach(approach, leg, approach.aim().words());
  }

  private Arrival approach(Action.Approach approach, Leg leg, String label)
      throws TestVoid, RunEnded {
    OptionalDouble from = approach.from();
    double start = from.isPresent() ? from.getAsDouble() : wherever(approach.to());
    double target = approach.to().percent();
    Reading<Current> applied = signal.command(approach.to());
    Practice practice = unit.practice();
    double travel = unit.travelSeconds(target - start);
    double window = unit.restWindowSeconds(plan.bench().samplePeriodSeconds());
    nominalSeconds += travel + Math.max(practice.restEarliestSeconds(), window);
    String direction = from.isEmpty() ? "none" : target > start ? "up" : "down";
    Wait wait =
        new Wait(
            approach.aim(),
            leg,
            label,
            target,
            direction,
            approach.cycle(),
            applied.answeredNanos(),
            practice.restEarliestSeconds() + travel,
            practice.restTimeoutSeconds() + 2 * travel,
            true);
    return rest.await(wait, "settling");
  }

  /** Where it stands now; where a person would have to read that, as far away as it can be. */
  private double wherever(Position to) throws TestVoid, RunEnded {
    if (bench.positionByEye().isPresent()) {
      return to.percent() < 50.0 ? 100.0 : 0.0;
    }
    Optional<Reading<Position>> last = sampler.last();
    return last.isPresent() ? last.get().value().percent() : sampler.next().value().percent();
  }
}
