package org.benchstroke.papers.sheets;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Block;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.unit.Limit;

/** What a digital calibration certificate states beside its figures. For one thread. */
final class DccStatements {
  /** The document that the four words are of. */
  static final String CONVENTION = "ILAC-G8:09/2019";

  private final DccLines lines;
  private final Subject subject;
  private final Issue issue;

  DccStatements(DccLines lines, Subject subject, Issue issue) {
    this.lines = lines;
    this.subject = subject;
    this.issue = issue;
  }

  void write() throws XMLStreamException {
    for (Filed filed : subject.all()) {
      lines.in("statement", () -> conformity(filed));
    }
    for (Filed filed : subject.all()) {
      for (String notice : ReportPages.notices(filed.run())) {
        said("Notice" + of(subject, filed), notice);
      }
    }
    if (subject.found().isPresent()) {
      said("Adjusted", subject.adjusted());
    }
    for (Map.Entry<String, String> each : stated().entrySet()) {
      said(each.getKey(), each.getValue());
    }
    for (Block block : ReportPages.basis(subject.judged()).blocks()) {
      if (block instanceof Block.Bullets bullets) {
        for (String sentence : bullets.items()) {
          said("Basis", sentence);
        }
      }
    }
  }

  /** Behind a name, where there are two runs. */
  static String of(Subject subject, Filed filed) {
    return subject.found().isEmpty()
        ? ""
        : filed.equals(subject.run()) ? ", as left" : ", as found";
  }

  private Map<String, String> stated() {
    Map<String, String> stated = new LinkedHashMap<>();
    stated.put("Ran the test", subject.judged().record().label(Label.OPERATOR));
    stated.put("Condition of the unit when it was received", issue.said().condition());
    stated.put("Deviations from the methods", issue.said().deviations());
    stated.put("Remarks", issue.said().remarks());
    stated.put("Attempts that were void", attempts(subject.judged()));
    stated.values().removeIf(String::isBlank);
    return stated;
  }

  private static String attempts(JudgedRun run) {
    List<Event.TestEnded> without =
        run.record()
            .events(Event.TestEnded.class)
            .filter(ended -> !ended.outcome().equals("complete"))
            .toList();
    return without.stream()
        .map(e -> e.test() + ", attempt " + e.attempt() + ": " + e.outcome() + ", " + e.reason())
        .collect(Collectors.joining("; "));
  }

  private void said(String name, String sentence) throws XMLStreamException {
    lines.in(
        "statement",
        () -> {
          lines.text("name", name);
          lines.text("declaration", sentence);
        });
  }

  private void conformity(Filed filed) throws XMLStreamException {
    JudgedRun run = filed.run();
    lines.text("name", "Conformity of the unit" + of(subject, filed));
    lines.word("convention", CONVENTION);
    String rules =
        run.unit().limits().stream()
            .map(Limit::rule)
            .map(rule -> rule.text())
            .distinct()
            .collect(Collectors.joining("; "));
    lines.text(
        "declaration",
        run.reason(),
        "Decision rule: " + (rules.isEmpty() ? "none, for no limit was agreed" : rules) + ".");
    Optional<String> status = status(ReportPages.shown(run));
    if (status.isPresent()) {
      lines.word("conformity", status.get());
    }
  }

  /** The word of the schema; none where there is no result, which is no statement of conformity. */
  static Optional<String> status(Word word) {
    return switch (word) {
      case PASS -> Optional.of("pass");
      case CONDITIONAL_PASS -> Optional.of("conditionalPass");
      case CONDITIONAL_FAIL -> Optional.of("conditionalFail");
      case FAIL -> Optional.of("fail");
      case NO_RESULT -> Optional.empty();
    };
  }
}
