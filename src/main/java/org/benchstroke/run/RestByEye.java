package org.benchstroke.run;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.unit.UnitType;

/**
 * Waits where a person reads the position: as long as the unit needs by its data sheet and the rest
 * window, then the person looks whether it stands still and types what the display shows. How it
 * got there is not seen. The runner's thread only.
 */
final class RestByEye implements Rest {
  private static final long SLICE_WALL_NANOS = 200_000_000L;

  /** What a display can show beyond 0 and 100 %, and beyond its current. */
  private static final double BEYOND_PERCENT = 10.0;

  private static final double MOST_MILLIAMPS = 30.0;

  private final UnitType unit;
  private final double windowSeconds;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final Signal signal;
  private final ProgressLine progress;
  private final StopSwitch stop;
  private final WatchdogFeed feed;
  private final Eye position;
  private final Optional<StemByEye> stem;
  private final Optional<Eye> switches;

  RestByEye(
      RunPlan plan,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      Signal signal,
      ProgressLine progress,
      StopSwitch stop,
      WatchdogFeed feed,
      Eye position,
      Optional<StemByEye> stem,
      Optional<Eye> switches) {
    this.unit = plan.unit();
    this.windowSeconds = unit.restWindowSeconds(plan.bench().samplePeriodSeconds());
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.signal = signal;
    this.progress = progress;
    this.stop = stop;
    this.feed = feed;
    this.position = position;
    this.stem = stem;
    this.switches = switches;
  }

  @Override
  public Arrival await(Wait wait, String state) throws TestVoid, RunEnded {
    progress.blind(state);
    passTime(wait.sinceNanos() + (long) ((wait.earliestSeconds() + windowSeconds) * 1e9));
    long from = clock.nanos();
    sampler.lookAround(unit.practice().restSamples());
    OptionalDouble percent = asks(wait) ? OptionalDouble.of(read(wait)) : OptionalDouble.empty();
    Optional<Reading<Current>> loop = sampler.loop();
    if (wait.signalOn() && loop.isPresent()) {
      signal.compareLoop(wait.targetPercent(), loop.get());
    }
    log.write(
        new Event.Rested(
            wait.label(),
            wait.leg(),
            wait.targetPercent(),
            wait.direction(),
            wait.cycle(),
            true,
            true,
            log.since(from),
            log.since(clock.nanos()),
            0.0));
    if (wait.readsAll()) {
      askTheRest(wait);
    }
    return new Arrival(percent, true, Optional.empty(), Trace.empty());
  }

  private void askTheRest(Wait wait) throws RunEnded {
    if (stem.isPresent()) {
      stem.get().ask(wait.label());
    }
    if (switches.isPresent()) {
      for (LimitSwitch each : SwitchesByEye.at(wait, switches.get().spec())) {
        switches.get().look(each, wait.label());
      }
    }
  }

  /** The points of the travel error test, and what the first stroke needs to tell the action. */
  private static boolean asks(Wait wait) {
    return wait.leg() == Leg.ARRIVAL && wait.aim().byEye() != Aim.ByEye.NOTHING;
  }

  private double read(Wait wait) throws RunEnded {
    Channel channel = position.channel(Role.POSITION_TRANSMITTER);
    boolean milliamps = channel.unit().equals("mA");
    double shown =
        position.read(
            "position",
            Role.POSITION_TRANSMITTER,
            milliamps ? "feedback, once it stands still," : "position, once it stands still,",
            wait.label(),
            milliamps ? 0.0 : -BEYOND_PERCENT,
            milliamps ? MOST_MILLIAMPS : 100.0 + BEYOND_PERCENT);
    return milliamps ? unit.feedback().positionAt(Current.ofMilliamps(shown)).percent() : shown;
  }

  private void passTime(long untilNanos) throws RunEnded {
    long slice = (long) (SLICE_WALL_NANOS * clock.pace());
    try {
      while (clock.nanos() < untilNanos) {
        clock.waitUntil(Math.min(untilNanos, clock.nanos() + slice));
        stop.check();
        feed.feedMeanwhile();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunEnded(RunEnded.How.STOPPED, "the program was asked to end");
    }
  }
}
