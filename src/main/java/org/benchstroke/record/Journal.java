package org.benchstroke.record;

import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Where a run writes what happens, before anyone is shown it. One thread writes. */
public interface Journal extends AutoCloseable {
  /**
   * Writes one event of a step. What happens {@link Event#betweenSamples() between the samples} of
   * a test is on the disk within a second: if the disk lags further, this waits. Everything else is
   * on the disk when this returns, with all before it.
   *
   * @param step the step that it belongs to; empty if to none
   * @throws IOException if it can't be written: the run must then end in the safe state
   */
  Entry write(Optional<StepId> step, Event event) throws IOException;

  /** Writes one event of no step, likewise. */
  default Entry write(Event event) throws IOException {
    return write(Optional.empty(), event);
  }

  /**
   * Takes over lines of another record, as they are; what is written after them is later, on the
   * scale of their times. All of it is on the disk when this returns.
   *
   * @param earlier at least one line, in order, none that opens or closes a record
   * @throws IOException if it can't be written
   */
  void takeOver(List<Entry> earlier) throws IOException;

  /** Bench time at which the record was opened; times in events count from there. */
  long originNanos();

  @Override
  void close() throws IOException;
}
