package org.benchstroke.judge;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.FaultNames;
import org.benchstroke.record.Leg;

/**
 * One attempt at a test as the record holds it.
 *
 * @param index the test's place in the procedure
 * @param test its name
 * @param number from 1
 * @param aims what its steps are for, in order
 * @param entries what happened between its first and its last line
 * @param outcome "complete", "void" or "not done"
 * @param reason why it isn't complete; else empty
 */
public record Attempt(
    int index,
    String test,
    int number,
    List<Aim> aims,
    List<Entry> entries,
    String outcome,
    String reason) {
  static final String COMPLETE = "complete";
  static final String VOID = "void";
  static final String NOT_DONE = "not done";

  public Attempt {
    aims = List.copyOf(aims);
    entries = List.copyOf(entries);
  }

  /** As the record says; but a fault that makes figures worthless voids it whatever it says. */
  static Attempt ended(Event.TestEnded end, List<Aim> aims, List<Entry> entries) {
    String outcome = end.outcome().toLowerCase(Locale.ROOT);
    String reason = end.reason();
    for (Entry entry : entries) {
      if (outcome.equals(COMPLETE)
          && entry.event() instanceof Event.Faulted fault
          && (fault.fault().equals(FaultNames.IMPOSSIBLE_SLEW)
              || fault.fault().equals(FaultNames.FROZEN_VALUE)
              || fault.fault().equals(FaultNames.SETTING_LOST))) {
        outcome = VOID;
        reason = fault.fault() + ": " + fault.detail();
      }
    }
    return new Attempt(end.index(), end.test(), end.attempt(), aims, entries, outcome, reason);
  }

  /** What a line of it is for; empty between the steps. */
  public Optional<Aim> aim(Entry entry) {
    return entry.step().filter(s -> s.step() < aims.size()).map(s -> aims.get(s.step()));
  }

  /** Whether a line is for that. */
  public boolean isFor(Entry entry, Aim aim) {
    return aim(entry).filter(aim::equals).isPresent();
  }

  /** The waits for rest where its steps go, in order. */
  public List<Event.Rested> arrivals(Predicate<Aim> aims) {
    return entries.stream()
        .filter(e -> aim(e).filter(aims).isPresent())
        .filter(e -> e.event() instanceof Event.Rested r && r.leg() == Leg.ARRIVAL)
        .map(e -> (Event.Rested) e.event())
        .toList();
  }

  /** What was watched in such steps, in order. */
  public List<Event.Watched> watched(Predicate<Aim> aims) {
    return entries.stream()
        .filter(e -> aim(e).filter(aims).isPresent())
        .map(Entry::event)
        .filter(Event.Watched.class::isInstance)
        .map(Event.Watched.class::cast)
        .toList();
  }

  /** What the file holds of the test's kind beside what was judged, in words. */
  Optional<String> more() {
    return entries.stream()
        .map(Entry::event)
        .filter(e -> e instanceof Event.Faulted f && f.fault().equals(FaultNames.MORE))
        .map(e -> ((Event.Faulted) e).detail())
        .findFirst();
  }

  boolean complete() {
    return outcome.equals(COMPLETE);
  }
}
