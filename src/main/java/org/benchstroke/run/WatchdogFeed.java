package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;

/** Tells instruments that have a watchdog that the program is alive. The runner's thread only. */
final class WatchdogFeed {
  private final Bench bench;
  private final BenchClock clock;
  private final RunLog log;
  private boolean begun;
  private Optional<InstrumentException> missed = Optional.empty();

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
   * @throws InstrumentException if one does not answer, or did not while a person was waited for
   */
  void feed() throws InstrumentException {
    if (missed.isPresent()) {
      InstrumentException before = missed.get();
      missed = Optional.empty();
      throw before;
    }
    for (Instrument instrument : bench.instruments()) {
      instrument.keepAlive(Deadline.inWall(clock, bench.replyNanos()));
    }
  }

  /** The same while a person is waited for; a failure is met by the next {@link #feed()}. */
  void feedMeanwhile() {
    if (begun && missed.isEmpty()) {
      try {
        feed();
      } catch (InstrumentException e) {
        missed = Optional.of(e);
      }
    }
  }

  /** A new series begins: what was missed before it is written, and bears on it no more. */
  void restart() {
    missed.ifPresent(e -> log.write(Failed.exchange(e)));
    missed = Optional.empty();
  }
}
