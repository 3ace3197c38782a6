package org.benchstroke.run;

import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.procedure.Action;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;

/** Takes the motor supply away, gives it back, and watches. The runner's thread only. */
final class PowerAway {
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final Signal signal;
  private final Rest rest;
  private final MotorSupply supply;
  private final ProgressLine progress;
  private final SupplyOff supplyOff;

  PowerAway(
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Signal signal,
      Rest rest,
      MotorSupply supply,
      ProgressLine progress,
      SupplyOff supplyOff) {
    this.supplyOff = supplyOff;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.signal = signal;
    this.rest = rest;
    this.supply = supply;
    this.progress = progress;
  }

  /**
   * Proves that a unit without its supply does not move: a relay whose contact welded would let a
   * unit pass that never lost its supply. The signal is then what it was.
   *
   * @throws RunEnded if it moves
   */
  void prove() throws TestVoid, RunEnded {
    switched(false);
    supplyOff.begin();
    for (double end : new double[] {0.0, 100.0}) {
      Reading<Current> set = signal.pretend(Position.ofPercent(end));
      supplyOff.under(set.value(), set.answeredNanos());
    }
    signal.pretend(Position.ofPercent(signal.setpoint()));
    supplyOff.stoodStill();
    switched(true);
  }

  Arrival perform(Action.Cut cut) throws TestVoid, RunEnded {
    if (cut.towards().isPresent()) {
      underWay(cut, cut.towards().get());
    }
    double from = sampler.last().map(r -> r.value().percent()).orElse(Double.NaN);
    switched(false);
    long off = clock.nanos();
    double at = from;
    while (seconds(off) < cut.awaySeconds()) {
      at = show("power away");
    }
    if (cut.towards().isPresent()) {
      supplyOff.requireNotGoneOn(from, at, cut.towards().get().percent());
    }
    log.write(
        new Event.Watched(
            cut.aim().words(),
            signal.setpoint(),
            true,
            "",
            log.since(off),
            log.since(clock.nanos())));
    switched(true);
    Wait wait =
        new Wait(
            cut.aim(),
            Leg.ARRIVAL,
            cut.aim().words() + ", returned",
            signal.setpoint(),
            "none",
            0,
            clock.nanos(),
            cut.earliestSeconds(),
            cut.timeoutSeconds(),
            true);
    return rest.await(wait, "power back");
  }

  /** Sends the unit on its way and waits until it has come to the place. */
  private void underWay(Action.Cut cut, Position towards) throws TestVoid, RunEnded {
    signal.command(towards);
    long since = clock.nanos();
    while (show("moving") < cut.at().percent()) {
      if (seconds(since) > cut.timeoutSeconds()) {
        throw new TestVoid(
            "the unit did not pass "
                + cut.at()
                + " in "
                + Math.round(cut.timeoutSeconds())
                + " s, so its power was not cut there");
      }
    }
  }

  private double show(String state) throws TestVoid, RunEnded {
    Reading<Position> reading = sampler.next();
    progress.reading(reading.value().percent(), state);
    return reading.value().percent();
  }

  private void switched(boolean on) throws TestVoid {
    try {
      supply.set(on);
      sampler.commanded();
    } catch (InstrumentException e) {
      throw new TestVoid(e.getMessage());
    }
  }

  private double seconds(long since) {
    return (clock.nanos() - since) / 1e9;
  }
}
