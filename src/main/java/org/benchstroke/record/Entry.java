package org.benchstroke.record;

import java.time.Instant;
import java.util.Optional;

/**
 * One line of a record.
 *
 * @param number from 1, without gaps
 * @param nanos bench time since the record was opened
 * @param utc the wall clock, a label
 * @param step which step it belongs to; empty between the steps
 * @param event what happened
 */
public record Entry(long number, long nanos, Instant utc, Optional<StepId> step, Event event) {
  /** Of no step. */
  public Entry(long number, long nanos, Instant utc, Event event) {
    this(number, nanos, utc, Optional.empty(), event);
  }
}
