package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.instrument.Reading;
import org.benchstroke.procedure.Action;
import org.benchstroke.quantity.Position;
import org.benchstroke.record.Event;

/** Watches for a stated time, at one setpoint or along a ramp. The runner's thread only. */
final class Watching {
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final Signal signal;
  private final ProgressLine progress;
  private final DutyWatch duty;

  Watching(
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Signal signal,
      ProgressLine progress,
      DutyWatch duty) {
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.signal = signal;
    this.progress = progress;
    this.duty = duty;
  }

  /** Samples at the setpoint in force; too many starts end it. */
  void hold(Action.Hold hold) throws TestVoid, RunEnded {
    long from = clock.nanos();
    duty.beginHold();
    Optional<String> tooMany = Optional.empty();
    while (seconds(from) < hold.seconds() && tooMany.isEmpty()) {
      show("holding");
      tooMany = duty.tooManyStarts(hold.seconds());
    }
    written(hold.point(), from, tooMany);
  }

  /**
   * Lets the motor cool for as long as the duty that the unit type states asks for.
   *
   * @return how long that took, s
   */
  double rest() throws TestVoid, RunEnded {
    long from = clock.nanos();
    while (duty.restSeconds() > 0.0) {
      show("resting, duty");
    }
    return seconds(from);
  }

  /** Moves the setpoint with every sample. */
  void ramp(Action.Ramp ramp) throws TestVoid, RunEnded {
    long from = clock.nanos();
    double start = ramp.from().percent();
    double change = ramp.to().percent() - start;
    double share = 0.0;
    while (share < 1.0) {
      share = Math.min(1.0, seconds(from) / ramp.seconds());
      signal.command(Position.ofPercent(start + share * change));
      show("ramp");
    }
    written(ramp.point(), from, Optional.empty());
  }

  private void show(String state) throws TestVoid, RunEnded {
    Reading<Position> reading = sampler.next();
    progress.reading(reading.value().percent(), state);
  }

  private void written(String point, long from, Optional<String> cutShort) {
    log.write(
        new Event.Watched(
            point,
            signal.setpoint(),
            cutShort.isEmpty(),
            cutShort.orElse(""),
            log.since(from),
            log.since(clock.nanos())));
  }

  private double seconds(long from) {
    return (clock.nanos() - from) / 1e9;
  }
}
