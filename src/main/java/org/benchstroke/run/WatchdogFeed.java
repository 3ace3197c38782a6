package org.benchstroke.run;

import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.record.Event;

/** Tells instruments that have a watchdog that the program is alive. The runner's thread only. */
final class WatchdogFeed {
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private boolean begun;
  private boolean failing;

  WatchdogFeed(Bench bench, BenchClock clock, RunLog log) {
    this.bench = bench;
    this.clock = clock;
    this.log = log;
  }

  /**
   * From now on instruments are fed also while a person is waited for: they are who they must be.
   */
  void begin() {
    begun = true;
  }

  /**
   * Feeds whoever is due.
   *
   * @throws InstrumentException if one does not answer
   */
  void feed() throws InstrumentException {
    for (Instrument instrument : bench.instruments()) {
      instrument.keepAlive(Deadline.inWall(clock, bench.replyNanos()));
    }
    failing = false;
  }

  /** The same where a failure can end nothing: it is written once, and the next sample meets it. */
  void feedMeanwhile() {
    if (!begun) {
      return;
    }
    try {
      feed();
    } catch (InstrumentException e) {
      if (!failing) {
        log.write(new Event.Faulted(e.kind().words(), e.instrument(), e.getMessage()));
      }
      failing = true;
    }
  }
}
