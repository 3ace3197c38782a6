package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.sheets.Part.Fact;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;

/**
 * What people stated of the job and the unit, as rows of a paper: every label that there is gets
 * its row, so that a new one needs nothing here but its words. Stateless.
 */
final class JobRows {
  /** What a paper must say, if only that nobody stated it. */
  private static final Set<Label> ALWAYS =
      EnumSet.of(Label.SERIAL, Label.CUSTOMER, Label.ORDER, Label.OPERATOR);

  private JobRows() {}

  static List<Fact> of(JudgedRun run, Issue.Said said, Words words) {
    List<Fact> rows = new ArrayList<>();
    for (Label label : Label.values()) {
      String value = run.record().label(label);
      if (!value.isBlank() || ALWAYS.contains(label)) {
        String name = words.maybe("label." + label.key()).orElse(label.words());
        rows.add(Fact.of(name, stated(value, words)));
      }
    }
    run.record()
        .events(Event.SetUp.class)
        .findFirst()
        .ifPresent(
            setUp ->
                rows.add(
                    Fact.of(
                        words.of("unit.set-up"),
                        setUp.begunUtc().substring(0, 10)
                            + ", "
                            + setUp.operator()
                            + "; "
                            + setUp.record())));
    rows.add(Fact.of(words.of("unit.type"), stated(run.unit().name(), words)));
    rows.add(Fact.of(words.of("unit.condition"), stated(said.condition(), words)));
    return rows;
  }

  static String stated(String value, Words words) {
    return value.isBlank() ? words.of("not-stated") : value;
  }
}
