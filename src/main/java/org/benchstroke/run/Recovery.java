package org.benchstroke.run;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.record.Event;

/**
 * Brings a bench back after a test became void. The safe signal comes first, and again as soon as
 * the source is back; whoever keeps silent has its connection opened anew; then every instrument
 * must answer, and must be the one that it was, before the test may be begun again. The wait for
 * that is bounded. The runner's thread only.
 */
final class Recovery {
  /** Between two looks at whoever is not back yet, ns of wall time (own choice). */
  private static final long PAUSE_NANOS = 500_000_000L;

  private final RunPlan plan;
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private final ProgressLine progress;
  private final StopSwitch stop;
  private String noted = "";

  Recovery(
      RunPlan plan,
      Bench bench,
      BenchClock clock,
      RunLog log,
      ProgressLine progress,
      StopSwitch stop) {
    this.plan = plan;
    this.bench = bench;
    this.clock = clock;
    this.log = log;
    this.progress = progress;
    this.stop = stop;
  }

  /** Commands the safe signal, before anything else. */
  Event.MadeSafe begin() {
    Event.MadeSafe safe = new SafeSignal(bench, clock, plan.unit()).command();
    noted = "";
    log.write(safe);
    return safe;
  }

  /**
   * Waits until the safe signal is confirmed and every instrument answers.
   *
   * @param first what {@link #begin()} gave
   * @throws RunEnded if that takes longer than practice allows, if another instrument answers, or
   *     if a stop was asked for
   */
  void await(TestVoid cause, Event.MadeSafe first) throws RunEnded {
    long lost = clock.wallNanos();
    Deadline end = Deadline.inWall(clock, (long) (plan.unit().practice().recoverySeconds() * 1e9));
    Event.MadeSafe safe = first;
    boolean waited = false;
    Optional<String> missing = missing(safe);
    while (missing.isPresent()) {
      stop.check();
      if (end.passed()) {
        throw new RunEnded(
            RunEnded.How.FAULT,
            cause.getMessage() + "; not back within " + seconds(lost) + " s: " + missing.get());
      }
      waited = true;
      progress.blind("link lost");
      pause(end);
      safe = safe.confirmed() ? safe : anew();
      missing = missing(safe);
    }
    if (waited) {
      // The output may have fallen back while the source could not be heard.
      safe = begin();
      if (!safe.confirmed()) {
        throw new RunEnded(RunEnded.How.FAULT, cause.getMessage() + "; " + safe.detail());
      }
      String detail = "all instruments answer again, " + seconds(lost) + " s after a lost link";
      log.write(new Event.Checked("recovery", "ok", detail, Map.of()));
    }
  }

  /**
   * A port that hangs keeps silent until it is opened again, and it may be anyone's on the line.
   */
  private Event.MadeSafe anew() {
    bench.instruments().forEach(Instrument::disconnect);
    return begin();
  }

  /** Why the test can't be begun again yet; empty if it can. */
  private Optional<String> missing(Event.MadeSafe safe) throws RunEnded {
    if (!safe.confirmed()) {
      return Optional.of(safe.detail());
    }
    for (Instrument instrument : bench.instruments()) {
      try {
        instrument.connect(deadline());
        requireSame(instrument, instrument.identify(deadline()));
      } catch (InstrumentException e) {
        note(e);
        instrument.disconnect();
        return Optional.of(e.getMessage());
      }
    }
    return Optional.empty();
  }

  /** Once for each instrument and kind of fault: the wait asks again and again. */
  private void note(InstrumentException e) {
    String what = e.instrument() + ": " + e.kind().words();
    if (!what.equals(noted)) {
      noted = what;
      log.write(Failed.exchange(e));
    }
  }

  /** Whoever answers after a lost link may have been exchanged meanwhile. */
  private void requireSame(Instrument instrument, Optional<Identity> identity) throws RunEnded {
    Identification found = Identification.of(plan.bench(), instrument, identity);
    if (found.outcome() == Identification.Outcome.ANOTHER) {
      throw new RunEnded(
          RunEnded.How.FAULT,
          instrument.name() + ": another instrument answers after the lost link: " + found.words());
    }
  }

  private void pause(Deadline end) throws RunEnded {
    try {
      clock.waitInWall(Math.min(end.remainingWallNanos(), PAUSE_NANOS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new RunEnded(RunEnded.How.STOPPED, "the program was asked to end");
    }
  }

  private String seconds(long since) {
    return Numbers.fixed((clock.wallNanos() - since) / 1e9, 1);
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}
