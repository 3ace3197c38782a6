package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * All attempts at tests of a record, in order. Of each test the last complete attempt counts.
 *
 * @param all the attempts
 */
record Chapters(List<Chapter> all) {
  Chapters {
    all = List.copyOf(all);
  }

  /**
   * Those of a record.
   *
   * @param plan the record's procedure, expanded for its unit type: what its steps are for
   */
  static Chapters of(RunRecord record, Expansion plan) {
    List<Chapter> chapters = new ArrayList<>();
    Event.TestBegan open = null;
    List<Entry> entries = new ArrayList<>();
    for (Entry entry : record.entries()) {
      if (entry.event() instanceof Event.TestBegan began) {
        unfinished(open, plan, entries).ifPresent(chapters::add);
        open = began;
        entries = new ArrayList<>();
      } else if (open != null && entry.event() instanceof Event.TestEnded ended) {
        if (ended.index() == open.index()) {
          chapters.add(Chapter.ended(ended, aims(plan, ended.index()), entries));
        }
        open = null;
      } else if (open != null) {
        entries.add(entry);
      } else if (entry.event() instanceof Event.TestEnded ended) {
        // Never begun: the runner says why.
        chapters.add(Chapter.ended(ended, List.of(), List.of()));
      }
    }
    unfinished(open, plan, entries).ifPresent(chapters::add);
    return new Chapters(chapters);
  }

  private static List<Aim> aims(Expansion plan, int index) {
    return index >= 0 && index < plan.tests().size()
        ? plan.tests().get(index).actions().stream().map(Action::aim).toList()
        : List.of();
  }

  private static Optional<Chapter> unfinished(
      Event.TestBegan began, Expansion plan, List<Entry> entries) {
    return Optional.ofNullable(began)
        .map(
            b ->
                new Chapter(
                    b.index(),
                    b.test(),
                    aims(plan, b.index()),
                    entries,
                    Chapter.NOT_DONE,
                    "the record ends before the test does"));
  }

  /** The attempt that counts: the last complete one, if it is the test that the procedure names. */
  Optional<Chapter> counting(int index, String test) {
    return all.stream()
        .filter(a -> a.index() == index && a.test().equals(test) && a.complete())
        .filter(a -> !a.lines().isEmpty())
        .reduce((first, last) -> last);
  }

  List<TestSummary> summaries(Procedure procedure) {
    List<TestSummary> summaries = new ArrayList<>();
    for (int index = 0; index < procedure.tests().size(); index++) {
      summaries.add(summary(index, procedure.tests().get(index).name()));
    }
    return summaries;
  }

  private TestSummary summary(int index, String test) {
    List<Chapter> of = all.stream().filter(a -> a.index() == index).toList();
    int made = (int) of.stream().filter(a -> !a.lines().isEmpty()).count();
    if (counting(index, test).isPresent()) {
      return new TestSummary(test, Chapter.COMPLETE, made, "");
    }
    if (of.isEmpty()) {
      return new TestSummary(test, Chapter.NOT_DONE, 0, "the record holds no attempt at it");
    }
    Chapter last = of.get(of.size() - 1);
    String outcome = last.outcome().equals(Chapter.VOID) ? Chapter.VOID : Chapter.NOT_DONE;
    String reason = last.complete() ? "the record holds nothing of it" : last.reason();
    return new TestSummary(test, outcome, made, reason);
  }
}
