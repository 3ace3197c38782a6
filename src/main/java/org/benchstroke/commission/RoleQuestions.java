package org.benchstroke.commission;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.commission.WatchedRole.Shown;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.run.Bench;
import org.benchstroke.unit.UnitType;

/**
 * What a role can be asked without acting. A source is asked what it stands at, a relay who it is.
 * The survey's thread.
 */
final class RoleQuestions {
  /** Less is nothing, mA or V. Own choice. */
  private static final double NOTHING = 0.1;

  /** A meter whose range begins at the signal's live zero shows no less. */
  private static final double LIVE_ZERO_MILLIAMPS = 4.1;

  private final BenchFile file;
  private final Optional<UnitType> unit;
  private final SignalRange feedback;
  private final Bench bench;
  private final BenchClock clock;

  /**
   * Asks nothing yet.
   *
   * @param feedback the range with which the bench was assembled
   */
  RoleQuestions(
      BenchFile file,
      Optional<UnitType> unit,
      SignalRange feedback,
      Bench bench,
      BenchClock clock) {
    this.file = file;
    this.unit = unit;
    this.feedback = feedback;
    this.bench = bench;
    this.clock = clock;
  }

  WatchedRole.Question of(Role role, Instrument instrument) {
    return switch (role) {
      case SIGNAL_SOURCE -> deadline -> source(instrument, deadline);
      case MOTOR_POWER -> deadline -> identity(instrument, "answers; not switched", deadline);
      case POSITION_TRANSMITTER ->
          deadline -> Optional.of(position(bench.position().read(deadline)));
      case LOOP_METER -> this::loop;
      case ANGLE_REFERENCE -> this::angle;
      case SWITCHES -> this::switches;
      case SUPPLY_METER -> this::supply;
    };
  }

  /** What it stands at is read, never set; one that can't be asked for it says who it is. */
  private Optional<Reading<Shown>> source(Instrument instrument, Deadline deadline)
      throws InstrumentException {
    long asked = clock.nanos();
    Optional<SignalSource.State> held = bench.source().held(deadline);
    if (held.isEmpty()) {
      return identity(instrument, "answers; its setting can't be read", deadline);
    }
    boolean live = held.get().output() && Math.abs(held.get().setting().milliamps()) >= NOTHING;
    Shown shown = new Shown("set to " + held.get(), OptionalDouble.empty(), !live);
    return Optional.of(
        new Reading<>(shown, Doubt.NONE, held.get().toString(), asked, clock.nanos()));
  }

  private Optional<Reading<Shown>> identity(Instrument instrument, String words, Deadline deadline)
      throws InstrumentException {
    long asked = clock.nanos();
    Optional<Identity> identity = instrument.identify(deadline);
    Shown shown = plain(words);
    return identity.map(i -> new Reading<>(shown, Doubt.NONE, i.raw(), asked, clock.nanos()));
  }

  private Reading<Shown> position(Reading<Position> reading) {
    String unitText = spec().channels().get(Role.POSITION_TRANSMITTER).unit();
    String percent = reading.value().toString();
    String text = unitText.equals("mA") ? feedback.currentAt(reading.value()).toString() : percent;
    boolean both = unitText.equals("mA") && unit.isPresent();
    OptionalDouble known =
        unit.isPresent() || !unitText.equals("mA")
            ? OptionalDouble.of(reading.value().percent())
            : OptionalDouble.empty();
    return as(new Shown(both ? text + " = " + percent : text, known, false), reading);
  }

  private InstrumentSpec spec() {
    return file.playing(Role.POSITION_TRANSMITTER).orElseThrow();
  }

  private Optional<Reading<Shown>> loop(Deadline deadline) throws InstrumentException {
    var reading = bench.loopMeter().orElseThrow().read(deadline);
    double milliamps = reading.value().milliamps();
    boolean atLowEnd = reading.is(Doubt.SATURATED) && milliamps < LIVE_ZERO_MILLIAMPS;
    boolean none = Math.abs(milliamps) < NOTHING || atLowEnd;
    return Optional.of(
        as(new Shown(reading.value().toString(), OptionalDouble.empty(), none), reading));
  }

  private Optional<Reading<Shown>> supply(Deadline deadline) throws InstrumentException {
    var reading = bench.supplyMeter().orElseThrow().read(deadline);
    boolean none = Math.abs(reading.value().volts()) < NOTHING;
    return Optional.of(
        as(new Shown(reading.value().toString(), OptionalDouble.empty(), none), reading));
  }

  private Optional<Reading<Shown>> angle(Deadline deadline) throws InstrumentException {
    var reading = bench.angle().orElseThrow().read(deadline);
    return Optional.of(as(plain(Numbers.fixed(reading.value().degrees(), 2) + " °"), reading));
  }

  private Optional<Reading<Shown>> switches(Deadline deadline) throws InstrumentException {
    var reading = bench.switches().orElseThrow().read(deadline);
    return Optional.of(as(plain(words(reading.value())), reading));
  }

  /** The switches that are made. */
  static String words(Map<LimitSwitch, Boolean> switches) {
    String made =
        switches.entrySet().stream()
            .filter(Map.Entry::getValue)
            .map(each -> each.getKey().key())
            .collect(Collectors.joining(", "));
    return made.isEmpty() ? "none made" : made + " made";
  }

  private static Shown plain(String text) {
    return new Shown(text, OptionalDouble.empty(), false);
  }

  private static Reading<Shown> as(Shown shown, Reading<?> reading) {
    return new Reading<>(
        shown, reading.doubts(), reading.raw(), reading.askedNanos(), reading.answeredNanos());
  }
}
