package org.benchstroke.record;

import java.io.IOException;

/** Where a run writes what happens, before anyone is shown it. One thread writes. */
public interface Journal extends AutoCloseable {
  /**
   * Writes one event. What happens {@link Event#betweenSamples() between the samples} of a test is
   * on the disk within a second: if the disk lags further, this waits. Everything else is on the
   * disk when this returns, with all before it.
   *
   * @throws IOException if it can't be written: the run must then end in the safe state
   */
  Entry write(Event event) throws IOException;

  /** Bench time at which the record was opened; times in events count from there. */
  long originNanos();

  @Override
  void close() throws IOException;
}
