package org.benchstroke.tests.byhand;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.AsOrdered.Subject;
import org.benchstroke.judge.Chapter;
import org.benchstroke.judge.Finding;
import org.benchstroke.judge.JudgedBench;
import org.benchstroke.judge.Lines;
import org.benchstroke.judge.TestJudge;
import org.benchstroke.judge.TestResult;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;

/** Figures that a competent person recorded: they are shown, and never judged. */
final class ByHandNotes implements TestJudge {
  private static final String METHOD = "recorded-by-hand/1";

  private final ByHand spec;
  private final Optional<Chapter> attempt;

  ByHandNotes(JudgedBench judged, ByHand spec, Optional<Chapter> attempt) {
    this.spec = spec;
    this.attempt = attempt;
  }

  @Override
  public TestResult result() {
    List<AsOrdered> missing = new ArrayList<>();
    List<Finding> notes = new ArrayList<>();
    for (ByHand.Item item : spec.items()) {
      Optional<Event.Sampled> typed = typed(item);
      if (typed.isPresent()) {
        notes.add(new Finding(Finding.Kind.NOTE, note(item, typed.get())));
      } else {
        missing.add(
            new AsOrdered(
                Subject.BY_HAND, item.name(), "recorded", "not recorded", Word.NO_RESULT, METHOD));
      }
    }
    return TestResult.orders(missing).found(notes);
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
    return attempt.map(Chapter::lines).orElse(Lines.NONE).readings(item.name()).stream()
        .reduce((first, last) -> last);
  }
}
