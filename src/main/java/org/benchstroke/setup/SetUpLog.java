package org.benchstroke.setup;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;

/**
 * Writes a set-up's record. Of what is read live only changes are written, with the readings just
 * before them: a bench may stand for an hour. One thread.
 */
final class SetUpLog {
  /** An angle that changed by less is not written again, °. */
  private static final double WORTH_DEGREES = 0.05;

  private static final double WORTH_PERCENT = 0.05;

  private final Journal journal;
  private Look written = Look.NOTHING;
  private Look last = Look.NOTHING;

  SetUpLog(Journal journal) {
    this.journal = journal;
  }

  /**
   * On the disk when it returns, but for readings, which are within a second.
   *
   * @throws UncheckedIOException if it can't be written
   */
  void write(Event event) {
    try {
      journal.write(event);
    } catch (IOException e) {
      throw new UncheckedIOException("the record can't be written: " + e.getMessage(), e);
    }
  }

  /** What was read, if it changed. */
  void seen(Look look) {
    if (changed(look)) {
      if (!last.equals(written)) {
        readings(last);
      }
      readings(look);
      written = look;
    }
    last = look;
  }

  private boolean changed(Look look) {
    return !switches(look).equals(switches(written))
        || apart(
            look.angle().map(a -> a.value().degrees()),
            written.angle().map(a -> a.value().degrees()),
            WORTH_DEGREES)
        || apart(
            look.position().map(p -> p.value().percent()),
            written.position().map(p -> p.value().percent()),
            WORTH_PERCENT);
  }

  private static Optional<Map<LimitSwitch, Boolean>> switches(Look look) {
    return look.switches().map(Reading::value);
  }

  private static boolean apart(Optional<Double> one, Optional<Double> other, double worth) {
    return one.isPresent() != other.isPresent()
        || (one.isPresent() && Math.abs(one.get() - other.get()) >= worth);
  }

  private void readings(Look look) {
    look.angle().ifPresent(a -> sampled("stem", a.value().degrees(), "deg", a));
    look.position().ifPresent(p -> sampled("position", p.value().percent(), "%", p));
    look.switches()
        .ifPresent(
            s ->
                s.value()
                    .forEach(
                        (which, made) ->
                            sampled("switch " + which.key(), made ? 1.0 : 0.0, "made", s)));
  }

  private void sampled(String channel, double value, String unit, Reading<?> reading) {
    long origin = journal.originNanos();
    write(
        new Event.Sampled(
            channel,
            value,
            unit,
            reading.is(Doubt.SATURATED) ? Event.Sampled.SATURATED : Event.Sampled.GOOD,
            reading.raw(),
            reading.askedNanos() - origin,
            reading.answeredNanos() - origin));
  }
}
