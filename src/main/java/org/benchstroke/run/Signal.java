package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.UnitType;

/**
 * The signal to the unit during the tests: every change of it is in the record. Runner's thread.
 */
final class Signal {
  /** Set anew within this time the signal follows a ramp, and is not asked after, ns. */
  private static final long FOLLOWED_NANOS = 1_000_000_000L;

  /** What the unit may be off by for less is nobody's fault, mA. Own choice. */
  private static final double LEAST_MILLIAMPS = 0.01;

  private final RunPlan plan;
  private final UnitType unit;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final Sampler sampler;
  private final ProgressLine progress;
  private Optional<Current> lastLoop = Optional.empty();
  private Optional<SignalSource.State> given = Optional.empty();
  private long givenNanos;

  Signal(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      RunLog log,
      Sampler sampler,
      ProgressLine progress) {
    this.plan = plan;
    this.unit = plan.unit();
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.sampler = sampler;
    this.progress = progress;
  }

  /** The setpoint in force, % of travel. */
  double setpoint() {
    return progress.setpoint();
  }

  /** Whether the source can open the loop by itself. */
  boolean opensLoop() {
    return bench.source().opensLoop();
  }

  /**
   * Gives the unit a setpoint.
   *
   * @throws TestVoid if the source failed
   */
  Reading<Current> command(Position setpoint) throws TestVoid {
    Current current = unit.currentAt(setpoint);
    if (clock.nanos() - givenNanos > FOLLOWED_NANOS) {
      requireHeld();
    }
    try {
      Reading<Current> applied = bench.source().apply(current, deadline());
      gave(applied.value(), true);
      log.write(
          new Event.Commanded(
              setpoint.percent(),
              current.milliamps(),
              applied.value().milliamps(),
              log.since(applied.askedNanos()),
              log.since(applied.answeredNanos())));
      tellDoubts(applied);
      sampler.commanded();
      progress.setpoint(setpoint.percent());
      return applied;
    } catch (InstrumentException e) {
      throw failed(e);
    }
  }

  /**
   * Puts a setpoint's current on a unit that has no supply and must not follow it: the setpoint in
   * force stays.
   *
   * @throws TestVoid if the source failed
   */
  Reading<Current> pretend(Position setpoint) throws TestVoid {
    try {
      Reading<Current> applied = bench.source().apply(unit.currentAt(setpoint), deadline());
      gave(applied.value(), true);
      tellDoubts(applied);
      return applied;
    } catch (InstrumentException e) {
      throw failed(e);
    }
  }

  /**
   * Gives the unit a current that is no setpoint.
   *
   * @return when it was confirmed, ns
   * @throws TestVoid if the source failed
   */
  long disturb(Current current) throws TestVoid {
    return disturb(current.toString(), Optional.of(current));
  }

  /**
   * Opens the loop.
   *
   * @return when it was confirmed, ns
   * @throws TestVoid if the source failed
   */
  long open() throws TestVoid {
    return disturb("open loop", Optional.empty());
  }

  private long disturb(String what, Optional<Current> current) throws TestVoid {
    requireHeld();
    long asked = clock.nanos();
    try {
      if (current.isPresent()) {
        Reading<Current> applied = bench.source().apply(current.get(), deadline());
        gave(applied.value(), true);
        tellDoubts(applied);
      } else {
        bench.source().release(deadline());
        gave(Current.ofMilliamps(0.0), false);
      }
    } catch (InstrumentException e) {
      throw failed(e);
    }
    long answered = clock.nanos();
    sampler.commanded();
    log.write(
        new Event.Disturbed(
            what,
            current.map(Current::milliamps).orElse(0.0),
            current.isEmpty(),
            log.since(asked),
            log.since(answered)));
    return answered;
  }

  /**
   * Holds the loop's current against the setpoint. A meter that disagrees is asked once more: what
   * it says then tells a wrong loop from a meter that repeats itself and from a reply of before.
   *
   * @throws TestVoid if they differ by more than the instruments explain
   */
  void compareLoop(double setpointPercent, Reading<Current> loop) throws TestVoid {
    Current wanted = unit.currentAt(Position.ofPercent(setpointPercent));
    Current found = loop.value();
    boolean same = lastLoop.filter(found::equals).isPresent();
    lastLoop = Optional.of(found);
    if (agrees(found, wanted)) {
      return;
    }
    Current again = sampler.loopAgain().map(Reading::value).orElse(found);
    requireHeld();
    String carries = "the loop carries " + found + " where " + wanted + " was set";
    if (agrees(again, wanted)) {
      throw same
          ? fault(
              RunFault.LATE_REPLY,
              carries + ", the same as before, and " + again + " when asked again")
          : fault(RunFault.LOOP_CURRENT, carries + ", and " + again + " when asked again");
    }
    throw same && again.equals(found)
        ? fault(
            RunFault.FROZEN_VALUE,
            carries + "; check the loop's wiring and the meter: its value did not change at all")
        : fault(RunFault.LOOP_CURRENT, carries + "; check the loop's wiring");
  }

  /**
   * Asks the source whether it still makes what it was set to: before the unit is blamed for what a
   * source did that was reset, and before it is set anew.
   *
   * @throws TestVoid if it does not, or does not answer
   */
  void requireHeld() throws TestVoid {
    if (given.isEmpty()) {
      return;
    }
    SignalSource.State set = given.get();
    Optional<SignalSource.State> now;
    try {
      now = bench.source().held(deadline());
    } catch (InstrumentException e) {
      throw failed(e);
    }
    sampler.paused();
    if (now.isPresent() && !same(set, now.get())) {
      given = Optional.empty();
      throw fault(
          RunFault.SETTING_LOST,
          "the source lost its setting: it says "
              + now.get()
              + ", where "
              + set
              + " was set; it was reset or somebody touched it, so what the unit has done since"
              + " then is not its own doing; check the source's supply, its watchdog and who else"
              + " talks to it");
    }
  }

  /** A source with its output off makes nothing, whatever it is set to. */
  private boolean same(SignalSource.State set, SignalSource.State now) {
    double step =
        plan.bench()
            .playing(Role.SIGNAL_SOURCE)
            .map(spec -> spec.channels().get(Role.SIGNAL_SOURCE).resolution())
            .orElse(0.0);
    double away = Math.abs(now.setting().minus(set.setting()).milliamps());
    return now.output() == set.output()
        && (!set.output() || away <= Math.max(step, LEAST_MILLIAMPS));
  }

  /** The safe signal was set past this: what was given before is no longer to be found. */
  void overridden() {
    given = Optional.empty();
  }

  private void gave(Current current, boolean output) {
    given = Optional.of(new SignalSource.State(current, output));
    givenNanos = clock.nanos();
  }

  /** Nothing was written again: what is read back proves the setting, its stamps are wide. */
  private void tellDoubts(Reading<Current> applied) {
    if (applied.is(Doubt.WRITE_UNCONFIRMED) || applied.is(Doubt.ASKED_AGAIN)) {
      RunFault fault =
          applied.is(Doubt.WRITE_UNCONFIRMED) ? RunFault.DOUBTED_WRITE : RunFault.BAD_REPLY;
      log.write(new Event.Faulted(fault, "", applied.raw()));
    }
  }

  private boolean agrees(Current found, Current wanted) {
    double allowed = LoopTolerance.milliamps(plan.bench(), wanted);
    return Math.abs(found.minus(wanted).milliamps()) <= allowed;
  }

  private TestVoid fault(RunFault fault, String detail) {
    log.write(new Event.Faulted(fault, "", detail));
    return new TestVoid(fault + ": " + detail);
  }

  private TestVoid failed(InstrumentException e) {
    log.write(Failed.exchange(e));
    return new TestVoid(e.getMessage());
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
