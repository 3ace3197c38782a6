package org.benchstroke.run;

import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/** Brings the source to the unit's safe signal, whatever happened before. The runner's thread. */
public final class SafeSignal {
  /** The command says the same each time, so it may be repeated where a measurement may not. */
  private static final int TRIES = 3;

  private final Bench bench;
  private final BenchClock clock;
  private final Current signal;

  public SafeSignal(Bench bench, BenchClock clock, UnitType unit) {
    this(bench, clock, unit.safeSignal());
  }

  SafeSignal(Bench bench, BenchClock clock, Current signal) {
    this.bench = bench;
    this.clock = clock;
    this.signal = signal;
  }

  /** Commands it, opening the link again where it is lost; says whether it was confirmed. */
  public Event.MadeSafe command() {
    return command(true);
  }

  /** The same with no other instrument asked for anything: none of them may be there yet. */
  public Event.MadeSafe commandFirst() {
    return command(false);
  }

  private Event.MadeSafe command(boolean askLoop) {
    String failure = "";
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      try {
        if (bench.sourceInstrument().isPresent()) {
          bench.sourceInstrument().get().connect(deadline());
        }
        Reading<Current> setting = bench.source().apply(signal, deadline());
        boolean said = setting.raw().equals(HandSource.SAID);
        String how = said ? "a person says that the source is set to " : "the source reads back ";
        return new Event.MadeSafe(
            signal.milliamps(),
            true,
            "confirmed, " + how + setting.value() + (askLoop ? loop() : ""));
      } catch (InstrumentException e) {
        failure = e.getMessage();
      }
    }
    return new Event.MadeSafe(
        signal.milliamps(), false, "commanded, but not confirmed: " + failure);
  }

  /** When the source was never touched: nothing may be sourced by an unproven instrument. */
  public Event.MadeSafe leftAlone() {
    return new Event.MadeSafe(
        signal.milliamps(),
        false,
        "not commanded: the identity of the source is not proven, so it was left as it was found");
  }

  private String loop() {
    if (bench.loopMeter().isEmpty()) {
      return "";
    }
    try {
      return ", the loop carries " + bench.loopMeter().get().read(deadline()).value();
    } catch (InstrumentException e) {
      return ", the loop meter did not answer";
    }
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
