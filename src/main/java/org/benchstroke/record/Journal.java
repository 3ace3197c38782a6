package org.benchstroke.record;

import java.io.IOException;

/** Where a run writes what happens, before anyone is shown it. One thread writes. */
public interface Journal extends AutoCloseable {
  /**
   * Writes one event. Everything but a sample is on the disk when this returns; a sample is at most
   * a second later.
   *
   * @throws IOException if it can't be written: the run must then end in the safe state
   */
  Entry write(Event event) throws IOException;

  /** Bench time at which the record was opened; times in events count from there. */
  long originNanos();

  @Override
  void close() throws IOException;
}
