package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;

/**
 * A source without a port: a person sets it and says so. What was set is only what that person
 * says; a loop meter proves it. The runner's thread only.
 */
final class HandSource implements SignalSource {
  /** The raw text of a setting that only a person can vouch for. */
  static final String SAID = "set by hand";

  private final InstrumentSpec spec;
  private final Channel channel;
  private final BenchClock clock;
  private final Operator operator;

  HandSource(InstrumentSpec spec, BenchClock clock, Operator operator) {
    this.spec = spec;
    this.channel = spec.channels().get(Role.SIGNAL_SOURCE);
    this.clock = clock;
    this.operator = operator;
  }

  @Override
  public Current lowest() {
    return Current.ofMilliamps(channel.low().orElseThrow());
  }

  @Override
  public Current highest() {
    return Current.ofMilliamps(channel.high().orElseThrow());
  }

  /** No deadline holds for a person. */
  @Override
  public Reading<Current> apply(Current current, Deadline deadline) throws InstrumentException {
    String request = "Set \"" + spec.name() + "\" to " + current;
    long asked = clock.nanos();
    if (!(operator.answer(new Question.Task(request)) instanceof Answer.Yes)) {
      throw new InstrumentException(
          InstrumentException.Kind.NOT_SET,
          spec.name(),
          spec.endpoint().text(),
          request,
          "nobody said that it was set");
    }
    return new Reading<>(current, Doubt.NONE, SAID, asked, clock.nanos());
  }

  /** Nobody is asked again and again. */
  @Override
  public Optional<State> held(Deadline deadline) {
    return Optional.empty();
  }

  @Override
  public boolean opensLoop() {
    return false;
  }

  @Override
  public void release(Deadline deadline) throws InstrumentException {
    throw new InstrumentException(
        InstrumentException.Kind.REFUSED,
        spec.name(),
        spec.endpoint().text(),
        "open the loop",
        "it is set by hand; the loop is not opened by hand while a unit is tested");
  }
}
