package org.benchstroke.run;

import java.util.List;
import java.util.Set;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;

/**
 * What a run takes over of one that was interrupted. Immutable.
 *
 * @param from which one
 * @param lines its lines from the second on, up to the end of the last test that counts
 * @param whole the tests that count, by their place in the procedure: they are not run again
 */
public record Resumption(Event.Resumed from, List<Entry> lines, Set<Integer> whole) {
  public Resumption {
    lines = List.copyOf(lines);
    whole = Set.copyOf(whole);
  }

  /** Whether a test need not be run: what only loosens the unit is always done again. */
  boolean counts(PlannedTest test) {
    return test.measures() && whole.contains(test.index());
  }

  /** How often a test was begun. */
  int attempts(PlannedTest test) {
    return (int)
        lines.stream()
            .filter(e -> e.event() instanceof Event.TestBegan b && b.index() == test.index())
            .count();
  }
}
