package org.benchstroke.run;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.record.Event;

/**
 * What there was before a run and bears on it. Immutable.
 *
 * @param said what a person must know before the unit moves, a sentence each: which attempt it is,
 *     what became of the one before
 * @param left the unit of the last run with this source, if that did not leave it proven safe
 * @param resumed the run that is gone on with, if it is one that was interrupted
 * @param setUp how the unit was set up, if that was recorded
 * @param notAsOrdered what was noted then and is not as ordered, a sentence each: a person must
 *     agree to that before anything moves
 */
public record Before(
    List<String> said,
    Optional<LeftUnit> left,
    Optional<Resumption> resumed,
    Optional<Event.SetUp> setUp,
    List<String> notAsOrdered) {
  /** Nothing. */
  public static final Before NOTHING = new Before(List.of(), Optional.empty(), Optional.empty());

  /** Without a set-up. */
  public Before(List<String> said, Optional<LeftUnit> left, Optional<Resumption> resumed) {
    this(said, left, resumed, Optional.empty(), List.of());
  }

  public Before {
    said = List.copyOf(said);
    notAsOrdered = List.copyOf(notAsOrdered);
  }

  /** The same of a unit that was set up like this. */
  public Before after(Optional<Event.SetUp> how, List<String> differences) {
    return new Before(said, left, resumed, how, differences);
  }

  /**
   * A unit that may still be connected, at some signal.
   *
   * @param record the name of its run's record
   * @param safeSignal its own, which may be another than that of the unit that is tested now
   */
  public record LeftUnit(String record, Current safeSignal) {}
}
