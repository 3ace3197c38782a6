package org.benchstroke.commission;

import java.util.HashSet;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;

/** One role of a bench, read again and again, with its errors counted. The survey's thread. */
final class WatchedRole {
  /**
   * A value as people read it.
   *
   * @param none whether it is the nothing of a loop in which no current flows
   */
  record Shown(String text, OptionalDouble percent, boolean none) {}

  /** One harmless exchange; empty where the role has none. */
  interface Question {
    Optional<Reading<Shown>> ask(Deadline deadline) throws InstrumentException;
  }

  private final Instrument instrument;
  private final Role role;
  private final Question question;
  private final BenchClock clock;
  private final Set<String> different = new HashSet<>();
  private Optional<Reading<Shown>> last = Optional.empty();
  private OptionalDouble lastMillis = OptionalDouble.empty();
  private OptionalDouble longestMillis = OptionalDouble.empty();
  private int replies;
  private int errors;
  private boolean mute;
  private boolean saturated;
  private boolean flowed;
  private String lastError = "";

  WatchedRole(Instrument instrument, Role role, Question question, BenchClock clock) {
    this.instrument = instrument;
    this.role = role;
    this.question = question;
    this.clock = clock;
  }

  Role role() {
    return role;
  }

  Instrument instrument() {
    return instrument;
  }

  /** Whether it has no harmless question. */
  boolean mute() {
    return mute;
  }

  /** Whether any value stood at an end of its channel's range. */
  boolean saturated() {
    return saturated;
  }

  /** Whether any value was more than nothing. */
  boolean flowed() {
    return flowed;
  }

  void ask(Deadline deadline) {
    try {
      instrument.connect(deadline);
      long asked = clock.nanos();
      Optional<Reading<Shown>> reading = question.ask(deadline);
      mute = reading.isEmpty();
      if (mute) {
        return;
      }
      last = reading;
      saturated |= reading.get().is(Doubt.SATURATED);
      flowed |= !reading.get().value().none();
      different.add(reading.get().raw());
      double millis = (clock.nanos() - asked) / clock.scale() / 1e6;
      lastMillis = OptionalDouble.of(millis);
      longestMillis = OptionalDouble.of(Math.max(millis, longestMillis.orElse(0.0)));
      replies++;
    } catch (InstrumentException e) {
      errors++;
      lastError = e.getMessage();
    }
  }

  RoleState state() {
    double now = clock.nanos();
    return new RoleState(
        instrument.name(),
        role,
        last.map(Reading::raw).orElse(""),
        last.map(reading -> reading.value().text()).orElse(mute ? "not asked" : "no value"),
        last.filter(r -> r.is(Doubt.SATURATED)).isPresent(),
        last.map(reading -> reading.value().percent()).orElse(OptionalDouble.empty()),
        last.isEmpty()
            ? OptionalDouble.empty()
            : OptionalDouble.of((now - last.get().answeredNanos()) / clock.scale() / 1e9),
        lastMillis,
        longestMillis,
        replies,
        errors,
        different.size(),
        lastError);
  }
}
