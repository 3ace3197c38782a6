package org.benchstroke.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.Practice;
import org.benchstroke.bench.UnitType;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.Reading;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.SignalLoss;
import org.benchstroke.quantity.Current;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Event;

/**
 * Carries out the actions of a test: commands, waits for rest, watches. The runner's thread only.
 */
final class Conductor {
  private final RunPlan plan;
  private final UnitType unit;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final RestRule rule;
  private final Preflight.Noise noise;
  private final ProgressLine progress;
  private final Optional<StemByEye> stem;
  private Optional<Current> lastLoop = Optional.empty();
  private double nominalSeconds;

  Conductor(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Preflight.Noise noise,
      ProgressLine progress,
      Operator operator) {
    this.plan = plan;
    this.unit = plan.unit();
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.noise = noise;
    this.rule = new RestRule(unit, plan.bench().samplePeriodSeconds(), noise.deviationPercent());
    this.progress = progress;
    this.stem =
        bench.stemByEye().map(spec -> new StemByEye(spec, plan, clock, log, sampler, operator));
  }

  /** The unit's own motion at nominal speed and the rest windows of all that was done so far, s. */
  double nominalSeconds() {
    return nominalSeconds;
  }

  /**
   * Does one action.
   *
   * @return where the unit came to rest, %; empty if it did not
   */
  OptionalDouble perform(Action action) throws TestVoid, RunEnded {
    if (action instanceof Action.Lose lose) {
      nominalSeconds += lose.seconds();
      return lose(lose).restPercent();
    }
    Action.Approach approach = (Action.Approach) action;
    Arrival arrival = approach(approach, approach.point(), approach.from());
    for (int i = 0; i < unit.practice().retakes() && mustRetake(approach, arrival); i++) {
      double back = approach.from().orElseThrow();
      approach(
          back(approach, back),
          "retake " + Numbers.plain(back),
          OptionalDouble.of(approach.to().percent()));
      arrival = approach(approach, approach.point(), approach.from());
    }
    return arrival.restPercent();
  }

  /**
   * How a wait for rest ended.
   *
   * @param restPercent where, %; empty if it did not settle
   * @param clean whether the approach was one-way
   */
  private record Arrival(OptionalDouble restPercent, boolean clean) {}

  private static boolean mustRetake(Action.Approach approach, Arrival arrival) {
    return approach.clean()
        && approach.from().isPresent()
        && arrival.restPercent().isPresent()
        && !arrival.clean();
  }

  private static Action.Approach back(Action.Approach approach, double percent) {
    return new Action.Approach(
        approach.point(), approach.from(), Position.ofPercent(percent), 0, false, 0.0);
  }

  private Arrival approach(Action.Approach approach, String point, OptionalDouble from)
      throws TestVoid, RunEnded {
    double start = from.isPresent() ? from.getAsDouble() : wherever();
    double target = approach.to().percent();
    Reading<Current> applied = command(approach.to());
    Practice practice = unit.practice();
    double travel = unit.travelSeconds(target - start);
    double window = unit.restWindowSeconds(plan.bench().samplePeriodSeconds());
    nominalSeconds += travel + Math.max(practice.restEarliestSeconds(), window);
    String direction = from.isEmpty() ? "none" : target > start ? "up" : "down";
    Wait wait =
        new Wait(
            point,
            target,
            direction,
            approach.cycle(),
            applied.answeredNanos(),
            practice.restEarliestSeconds() + travel,
            practice.restTimeoutSeconds() + 2 * travel);
    return await(wait, "settling");
  }

  private Reading<Current> command(Position setpoint) throws TestVoid {
    Current current = unit.signal().currentAt(setpoint);
    try {
      Reading<Current> applied = bench.source().apply(current, deadline());
      log.write(
          new Event.Commanded(
              setpoint.percent(),
              current.milliamps(),
              applied.value().milliamps(),
              log.since(applied.askedNanos()),
              log.since(applied.answeredNanos())));
      if (applied.writeDoubted()) {
        // Nothing was written again: what is read back proves the setting, its stamps are wide.
        log.write(new Event.Faulted("doubted write", "", applied.raw()));
      }
      sampler.commanded();
      progress.setpoint(setpoint.percent());
      return applied;
    } catch (InstrumentException e) {
      log.write(new Event.Faulted(e.kind().words(), e.instrument(), e.getMessage()));
      throw new TestVoid(e.getMessage());
    }
  }

  private Arrival lose(Action.Lose lose) throws TestVoid, RunEnded {
    Current low =
        lose.way() == SignalLoss.Way.LOW
            ? unit.signalLoss().holdsMilliamps()
            : unit.signalLoss().lostMilliamps();
    boolean open = lose.way() == SignalLoss.Way.OPEN_LOOP;
    if (open && !bench.source().opensLoop()) {
      String why = "not done: the source has no output switch, so it can't open the loop";
      log.write(new Event.Checked("signal loss: " + lose.way().key(), "warning", why, Map.of()));
      return new Arrival(OptionalDouble.empty(), false);
    }
    long asked = clock.nanos();
    try {
      if (open) {
        bench.source().release(deadline());
      } else {
        bench.source().apply(low, deadline());
      }
    } catch (InstrumentException e) {
      log.write(new Event.Faulted(e.kind().words(), e.instrument(), e.getMessage()));
      throw new TestVoid(e.getMessage());
    }
    long answered = clock.nanos();
    sampler.commanded();
    log.write(
        new Event.Disturbed(
            open ? "open loop" : low.toString(),
            open ? 0.0 : low.milliamps(),
            open,
            log.since(asked),
            log.since(answered)));
    Wait wait =
        new Wait(
            lose.point(),
            progress.setpoint(),
            "none",
            0,
            answered,
            lose.earliestSeconds(),
            lose.timeoutSeconds());
    return await(wait, "signal away");
  }

  /**
   * What is waited for.
   *
   * @param point its name in the record
   * @param targetPercent the setpoint, %
   * @param direction "up", "down" or "none"
   * @param cycle from 1, or 0
   * @param sinceNanos when the change was confirmed
   * @param earliestSeconds rest is not believed before
   * @param timeoutSeconds the wait is given up then
   */
  private record Wait(
      String point,
      double targetPercent,
      String direction,
      int cycle,
      long sinceNanos,
      double earliestSeconds,
      double timeoutSeconds) {
    double secondsAt(long nanos) {
      return (nanos - sinceNanos) / 1e9;
    }
  }

  private Arrival await(Wait wait, String state) throws TestVoid, RunEnded {
    rule.restart();
    List<Double> seen = new ArrayList<>();
    while (true) {
      Reading<Position> reading = sampler.next();
      double percent = reading.value().percent();
      seen.add(percent);
      Optional<RestRule.Window> window = rule.add(reading.stampNanos(), percent);
      double waited = wait.secondsAt(reading.answeredNanos());
      boolean near = Math.abs(percent - wait.targetPercent()) < 2.0;
      progress.reading(percent, state.equals("settling") && !near ? "moving" : state);
      if (window.isPresent() && waited >= wait.earliestSeconds()) {
        return settled(wait, window.get(), seen);
      }
      if (waited >= wait.timeoutSeconds()) {
        log.write(rested(wait, false, false, wait.sinceNanos(), reading.answeredNanos()));
        return new Arrival(OptionalDouble.empty(), false);
      }
    }
  }

  private Arrival settled(Wait wait, RestRule.Window window, List<Double> seen)
      throws TestVoid, RunEnded {
    if (noise.lively() && rule.frozen()) {
      String detail =
          "the position did not change by a single step, though it did at rest before; check the"
              + " link and the transmitter";
      log.write(new Event.Faulted("frozen value", "", detail));
      throw new TestVoid("frozen value: " + detail);
    }
    sampler.requireLiveStem();
    boolean clean = overrun(wait, window.meanPercent(), seen) <= allowedOverrun();
    log.write(rested(wait, true, clean, window.fromNanos(), window.toNanos()));
    progress.reading(window.meanPercent(), "at rest");
    Optional<Reading<Current>> loop = sampler.loop();
    if (loop.isPresent() && !wait.point().startsWith("loss ")) {
      compareLoop(wait.targetPercent(), loop.get());
    }
    // The readings of a travel error test have a direction and a cycle; nothing else needs the
    // stem.
    if (stem.isPresent() && clean && wait.cycle() > 0 && wait.point().startsWith("travel ")) {
      stem.get().read(wait.point(), window.meanPercent(), rule.limitPercent());
    }
    return new Arrival(OptionalDouble.of(window.meanPercent()), clean);
  }

  private Event.Rested rested(Wait wait, boolean settled, boolean clean, long from, long to) {
    return new Event.Rested(
        wait.point(),
        wait.targetPercent(),
        wait.direction(),
        wait.cycle(),
        settled,
        clean,
        log.since(from),
        log.since(to),
        rule.limitPercent());
  }

  /** How far the unit went past its place of rest, on the side that it was going to, %. */
  private static double overrun(Wait wait, double rest, List<Double> seen) {
    return switch (wait.direction()) {
      case "up" -> seen.stream().mapToDouble(y -> y - rest).max().orElse(0.0);
      case "down" -> seen.stream().mapToDouble(y -> rest - y).max().orElse(0.0);
      default -> 0.0;
    };
  }

  private double allowedOverrun() {
    return Math.max(unit.practice().overshootPercent(), 5.0 * noise.deviationPercent());
  }

  private void compareLoop(double setpointPercent, Reading<Current> loop) throws TestVoid {
    Current wanted = unit.signal().currentAt(Position.ofPercent(setpointPercent));
    Current found = loop.value();
    double allowed = LoopTolerance.milliamps(plan.bench(), wanted);
    boolean same = lastLoop.filter(found::equals).isPresent();
    lastLoop = Optional.of(found);
    if (Math.abs(found.minus(wanted).milliamps()) > allowed) {
      String fault = same ? "frozen value" : "loop current";
      String detail =
          "the loop carries " + found + " where " + wanted + " was set; check the loop's wiring";
      String told = same ? detail + " and the meter: its value did not change by a step" : detail;
      log.write(new Event.Faulted(fault, "", told));
      throw new TestVoid(same ? fault + ": " + told : told);
    }
  }

  private double wherever() throws TestVoid, RunEnded {
    Optional<Reading<Position>> last = sampler.last();
    return last.isPresent() ? last.get().value().percent() : sampler.next().value().percent();
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
