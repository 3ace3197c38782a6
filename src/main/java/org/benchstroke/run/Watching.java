package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;

/** Watches for a stated time, at one setpoint or along a ramp. The runner's thread only. */
final class Watching {
  /** A unit at rest has cooled in the time that was due; one that needs twice that moves on. */
  private static final double LONGEST_REST = 2.0;

  private static final double BESIDES_SECONDS = 10.0;

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
    written(hold.aim(), from, tooMany);
  }

  /**
   * Lets the motor cool for as long as the duty that the unit type states asks for.
   *
   * @return how long that took, s
   * @throws RunEnded also if the unit moves on meanwhile
   */
  double rest() throws TestVoid, RunEnded {
    long from = clock.nanos();
    double due = duty.restSeconds();
    while (duty.restSeconds() > 0.0) {
      show("resting, duty");
      if (seconds(from) > LONGEST_REST * due + BESIDES_SECONDS) {
        throw new RunEnded(
            RunEnded.How.FAULT,
            "the unit does not stand still where it is held, so its motor can't cool as its duty"
                + " requires");
      }
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
    written(ramp.aim(), from, Optional.empty());
  }

  private void show(String state) throws TestVoid, RunEnded {
    Reading<Position> reading = sampler.next();
    progress.reading(reading.value().percent(), state);
  }

  private void written(Aim aim, long from, Optional<String> cutShort) {
    log.write(
        new Event.Watched(
            aim.words(),
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
