package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.procedure.ByHand;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;

/** Figures that a competent person recorded: they are shown, and never judged. */
final class ByHandNotes {
  private static final String METHOD = "recorded-by-hand/1";

  private final ByHand spec;
  private final Optional<Attempt> attempt;

  ByHandNotes(ByHand spec, Optional<Attempt> attempt) {
    this.spec = spec;
    this.attempt = attempt;
  }

  TestResult result() {
    List<AsOrdered> missing = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    for (ByHand.Item item : spec.items()) {
      Optional<Event.Sampled> typed = typed(item);
      if (typed.isPresent()) {
        notes.add(note(item, typed.get()));
      } else {
        missing.add(
            new AsOrdered(
                Subject.BY_HAND, item.name(), "recorded", "not recorded", Word.NO_RESULT, METHOD));
      }
    }
    return new TestResult(List.of(), missing, Optional.empty(), notes);
  }

  private static String note(ByHand.Item item, Event.Sampled typed) {
    return "Recorded by hand, not measured by this program and not judged: "
        + item.name()
        + " "
        + Numbers.plain(typed.value())
        + " "
        + typed.unit()
        + ".";
  }

  private Optional<Event.Sampled> typed(ByHand.Item item) {
    return attempt.map(Attempt::entries).orElse(List.of()).stream()
        .map(Entry::event)
        .filter(e -> e instanceof Event.Sampled s && s.channel().equals(item.name()))
        .map(Event.Sampled.class::cast)
        .reduce((first, last) -> last);
  }
}
