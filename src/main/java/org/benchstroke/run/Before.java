package org.benchstroke.run;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Current;

/**
 * What there was before a run and bears on it. Immutable.
 *
 * @param said what a person must know before the unit moves, a sentence each: which attempt it is,
 *     what became of the one before
 * @param left the unit of the last run with this source, if that did not leave it proven safe
 * @param resumed the run that is gone on with, if it is one that was interrupted
 */
public record Before(List<String> said, Optional<LeftUnit> left, Optional<Resumption> resumed) {
  /** Nothing. */
  public static final Before NOTHING = new Before(List.of(), Optional.empty(), Optional.empty());

  public Before {
    said = List.copyOf(said);
  }

  /**
   * A unit that may still be connected, at some signal.
   *
   * @param record the name of its run's record
   * @param safeSignal its own, which may be another than that of the unit that is tested now
   */
  public record LeftUnit(String record, Current safeSignal) {}
}
