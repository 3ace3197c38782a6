package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Fact;
import org.benchstroke.record.Label;

/**
 * Who answers for a report (ISO/IEC 17025:2017 7.8.2.1 o, from memory). It is said of the report,
 * once its figures are known: no record holds it. Immutable.
 *
 * @param name who
 * @param role in which role: "head of the test shop"
 */
public record Signatory(String name, String role) {
  private static final String LINE = "_".repeat(22);

  /** Where a report says who answers for it, and where that one signs. */
  static Section section(JudgedRun run, Optional<Signatory> by) {
    List<Fact> facts = new ArrayList<>();
    facts.add(
        new Fact(
            "Report authorised by",
            by.map(a -> a.words(run)).orElse("not stated; this report is not authorised yet")));
    facts.add(new Fact("Signature", LINE));
    facts.add(new Fact("Day", LINE));
    return new Section("Authorisation", List.of(new Block.Facts(facts)));
  }

  private String words(JudgedRun run) {
    String operator = run.record().label(Label.OPERATOR).strip().toLowerCase(Locale.ROOT);
    String same = operator.equals(name.toLowerCase(Locale.ROOT)) ? " (who also ran the test)" : "";
    return name + ", " + role + same;
  }
}
