package org.benchstroke.setup;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.Event;
import org.benchstroke.run.Bench;
import org.benchstroke.run.Failed;
import org.benchstroke.run.Identification;
import org.benchstroke.run.SafeSignal;

/**
 * The instruments while a unit is set up. Nothing is sourced by one that has not proved who it is;
 * the relay of the motor supply is off until the power is to come on. What can't be reached is said
 * and tried again: people go on by ear and eye. One thread.
 */
final class SetUpBench {
  private static final long RETRY_NANOS = 2_000_000_000L;

  private final SetUpPlan plan;
  private final Bench bench;
  private final BenchClock clock;
  private final SetUpLog log;
  private final Sight sight;
  private final List<Instrument> waiting;
  private boolean proven;
  private boolean powerOn;
  private boolean powerTouched;
  private String fault = "";
  private long retryAt;

  SetUpBench(SetUpPlan plan, Bench bench, BenchClock clock, SetUpLog log) {
    this.plan = plan;
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.sight = Sight.of(plan.bench());
    this.waiting = new ArrayList<>(bench.instruments());
  }

  /** Opens what can be opened, with the safe signal first and the motor supply off. */
  void begin() {
    bench.sourceInstrument().ifPresent(this::open);
    waiting.stream().toList().forEach(this::open);
    if (proven) {
      log.write(new SafeSignal(bench, clock, plan.unit()).commandFirst());
    }
    if (bench.motorPower().isPresent()) {
      switchPower(false);
    }
  }

  /** Opens what is still missing, but not more often than every other second. */
  void openAgain(boolean now) {
    if (waiting.isEmpty() || (!now && clock.nanos() < retryAt)) {
      return;
    }
    fault = "";
    waiting.stream().toList().forEach(this::open);
    retryAt = clock.nanos() + RETRY_NANOS;
  }

  private void open(Instrument instrument) {
    try {
      instrument.connect(deadline());
      Identification found =
          Identification.of(plan.bench(), instrument, instrument.identify(deadline()));
      log.write(
          new Event.Identified(instrument.name(), found.expected(), found.found(), found.same()));
      if (found.outcome() == Identification.Outcome.ANOTHER) {
        fault = "identity of " + instrument.name() + ": " + found.words();
        return;
      }
      waiting.remove(instrument);
      proven = proven || bench.sourceInstrument().filter(s -> s == instrument).isPresent();
    } catch (InstrumentException e) {
      failed(e);
    }
  }

  private void failed(InstrumentException e) {
    if (!e.getMessage().equals(fault)) {
      log.write(Failed.exchange(e));
    }
    fault = e.getMessage();
    for (Instrument instrument : bench.instruments()) {
      if (instrument.name().equals(e.instrument()) && !waiting.contains(instrument)) {
        waiting.add(instrument);
      }
    }
    retryAt = clock.nanos() + RETRY_NANOS;
  }

  /** Whatever can be read now. */
  Look look(boolean position) {
    openAgain(false);
    for (Instrument instrument : bench.instruments()) {
      if (!waiting.contains(instrument)) {
        try {
          instrument.keepAlive(deadline());
        } catch (InstrumentException e) {
          failed(e);
        }
      }
    }
    Optional<Reading<Angle>> angle =
        read(sight.angle() ? bench.angle() : Optional.empty(), a -> a.read(deadline()));
    Optional<Reading<Map<LimitSwitch, Boolean>>> switches =
        read(sight.switches() ? bench.switches() : Optional.empty(), s -> s.read(deadline()));
    Optional<Reading<Position>> feedback =
        position && sight.position()
            ? read(Optional.of(bench.position()), p -> p.read(deadline()))
            : Optional.empty();
    if (waiting.isEmpty() && !fault.isEmpty() && nothingMissing(angle, switches)) {
      fault = "";
    }
    return new Look(angle, switches, feedback);
  }

  private boolean nothingMissing(Optional<?> angle, Optional<?> switches) {
    return angle.isPresent() == sight.angle() && switches.isPresent() == sight.switches();
  }

  /** Reads something in one role. */
  private interface Asked<R, T> {
    Reading<T> of(R role) throws InstrumentException;
  }

  private <R, T> Optional<Reading<T>> read(Optional<R> role, Asked<R, T> asked) {
    if (role.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(asked.of(role.get()));
    } catch (InstrumentException e) {
      failed(e);
      return Optional.empty();
    }
  }

  /**
   * Brings the source to the safe signal, then the power on.
   *
   * @return why it could not be done; empty if it is
   */
  Optional<String> energise() {
    openAgain(true);
    if (!proven && bench.sourceInstrument().isPresent()) {
      return Optional.of("the power stays off, for the source has not proved who it is: " + fault);
    }
    Event.MadeSafe safe = new SafeSignal(bench, clock, plan.unit()).commandFirst();
    log.write(safe);
    if (!safe.confirmed()) {
      return Optional.of("the power stays off, for the safe signal is " + safe.detail());
    }
    proven = true;
    if (bench.motorPower().isPresent()) {
      return switchPower(true);
    }
    powerOn = true;
    log.write(new Event.Powered(true, "by hand"));
    return Optional.empty();
  }

  private Optional<String> switchPower(boolean on) {
    try {
      powerTouched = true;
      bench.motorPower().orElseThrow().set(on, deadline());
      powerOn = on;
      log.write(new Event.Powered(on, "relay"));
      return Optional.empty();
    } catch (InstrumentException e) {
      failed(e);
      powerOn = powerOn || on;
      return Optional.of("the relay of the motor supply did not obey: " + e.getMessage());
    }
  }

  boolean powerOn() {
    return powerOn;
  }

  String fault() {
    return fault;
  }

  Sight sight() {
    return sight;
  }

  /** Leaves the bench safe, whatever happened; never throws. */
  Left leave() {
    SafeSignal signal = new SafeSignal(bench, clock, plan.unit());
    Event.MadeSafe safe = proven ? signal.command() : signal.leftAlone();
    String power = powerOff();
    bench.close();
    return new Left(safe, power);
  }

  /**
   * How it was left.
   *
   * @param safe the safe signal
   * @param power the motor's supply, in words
   */
  record Left(Event.MadeSafe safe, String power) {}

  private String powerOff() {
    if (bench.motorPower().isPresent()) {
      if (!powerTouched) {
        return "left as it was found";
      }
      return switchPower(false).map(why -> "NOT confirmed off: " + why).orElse("off by the relay");
    }
    return powerOn ? "by hand: switch it off now" : "off, as it was asked for";
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
