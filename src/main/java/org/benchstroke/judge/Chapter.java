package org.benchstroke.judge;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import org.benchstroke.procedure.Aim;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunFault;

/** One attempt at a test as the record holds it, cut into its passages. Immutable. */
public final class Chapter {
  static final String COMPLETE = "complete";
  static final String VOID = "void";
  static final String NOT_DONE = "not done";

  private final int index;
  private final String test;
  private final List<Entry> entries;
  private final List<Passage> passages;
  private final String outcome;
  private final String reason;

  /**
   * One attempt.
   *
   * @param index the test's place in the procedure
   * @param test its name
   * @param aims what its steps are for, in order
   * @param entries what happened between its first and its last line
   * @param outcome "complete", "void" or "not done"
   * @param reason why it isn't complete; else empty
   */
  Chapter(
      int index, String test, List<Aim> aims, List<Entry> entries, String outcome, String reason) {
    this.index = index;
    this.test = test;
    this.entries = List.copyOf(entries);
    this.passages =
        Passage.cut(
            this.entries,
            entry -> entry.step().filter(s -> s.step() < aims.size()).map(s -> aims.get(s.step())));
    this.outcome = outcome;
    this.reason = reason;
  }

  /** As the record says; but a fault that makes figures worthless voids it whatever it says. */
  static Chapter ended(Event.TestEnded end, List<Aim> aims, List<Entry> entries) {
    String outcome = end.outcome().toLowerCase(Locale.ROOT);
    String reason = end.reason();
    for (Event.Faulted fault : new Lines(entries).all(Event.Faulted.class)) {
      boolean worthless =
          fault.fault() == RunFault.IMPOSSIBLE_SLEW
              || fault.fault() == RunFault.FROZEN_VALUE
              || fault.fault() == RunFault.SETTING_LOST;
      if (outcome.equals(COMPLETE) && worthless) {
        outcome = VOID;
        reason = fault.fault() + ": " + fault.detail();
      }
    }
    return new Chapter(end.index(), end.test(), aims, entries, outcome, reason);
  }

  int index() {
    return index;
  }

  String test() {
    return test;
  }

  String outcome() {
    return outcome;
  }

  String reason() {
    return reason;
  }

  boolean complete() {
    return outcome.equals(COMPLETE);
  }

  /** All of its lines. */
  public Lines lines() {
    return new Lines(entries);
  }

  /** Its lines up to the end of a passage of it. */
  public Lines until(Passage passage) {
    return Lines.of(passages.subList(0, passages.indexOf(passage) + 1));
  }

  /** From one change of the signal or the motor supply to the next, in order. */
  public List<Passage> passages() {
    return passages;
  }

  /** The waits for rest, in order. */
  public List<RestWait> rests() {
    return passages.stream().flatMap(p -> p.rests().stream()).toList();
  }

  /** Those where its steps of such aims go. */
  public List<RestWait> arrivals(Predicate<Aim> aims) {
    return rests().stream()
        .filter(r -> r.aim().filter(aims).isPresent() && r.found().leg() == Leg.ARRIVAL)
        .toList();
  }

  /** What was watched in steps of such aims, in order. */
  public List<Event.Watched> watched(Predicate<Aim> aims) {
    return passages.stream()
        .flatMap(p -> p.watches().stream())
        .filter(w -> w.aim().filter(aims).isPresent())
        .map(Passage.Watch::watched)
        .toList();
  }

  /** What the file holds of the test's kind beside what was judged, in words. */
  Optional<String> more() {
    return lines().fault(RunFault.MORE);
  }
}
