package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.pdf.Picture;
import org.benchstroke.papers.pdf.QrPicture;
import org.benchstroke.papers.sheets.Part.Fact;
import org.benchstroke.record.Label;

/** Puts a judged run into the words of a certificate, or of a test report if it can't be one. */
final class Certificate {
  private final Subject subject;
  private final Issue issue;
  private final Terms terms;
  private final Words words;
  private final Standing standing;

  Certificate(Subject subject, Issue issue) {
    this.subject = subject;
    this.issue = issue;
    this.words = Words.of(issue.language());
    this.terms = new Terms(words);
    this.standing = Standing.of(subject, issue);
  }

  CertificatePage page() {
    BasisRows basis = new BasisRows(subject, issue, terms);
    List<Part> closing =
        List.of(
            Part.Text.fine(words.of("record.verify")),
            Part.Text.fine(words.of("end.accreditation")));
    return new CertificatePage(
        frame(),
        supersedes(),
        Headline.of(subject, terms),
        List.of(
            JobRows.stated(subject.judged().record().label(Label.SERIAL), words),
            subject.judged().unit().name()),
        standing.obstacles().stream().map(o -> words.of("obstacle." + o.name())).toList(),
        panels(basis),
        new Panel(words.of("panel.issue"), closing),
        signature(),
        basis.record());
  }

  private Frame frame() {
    return Frames.of(
        subject,
        issue,
        words,
        words.of(standing.certifies() ? "title.certificate" : "title.report"));
  }

  private Optional<String> supersedes() {
    return issue
        .edition()
        .superseded()
        .map(
            was ->
                words.of(
                    "supersedes",
                    was.number(),
                    Terms.minute(was.issued(), issue.zone()),
                    was.reason()));
  }

  private List<Panel> panels(BasisRows basis) {
    JudgedRun run = subject.judged();
    ResultRows results = new ResultRows(subject, terms);
    List<Panel> panels = new ArrayList<>();
    panels.add(panel("panel.job", List.of(new Part.Facts(JobRows.of(run, issue.said(), words)))));
    panels.add(panel("panel.ordered", List.of(new Part.Facts(OrderedRows.of(run.unit(), words)))));
    panels.add(
        panel("panel.test", List.of(new Part.Facts(new TestRows(subject, issue, terms).all()))));
    List<Part> judged = new ArrayList<>(results.results());
    results.unjudged().ifPresent(judged::add);
    panels.add(panel("panel.results", judged));
    panels.add(panel("panel.orders", results.orders()));
    panels.add(panel("panel.tests", basis.tests()));
    panels.add(panel("panel.instruments", basis.instruments()));
    panels.add(panel("panel.methods", basis.methods()));
    panels.add(panel("panel.reading", basis.reading()));
    panels.add(panel("panel.remarks", List.of(basis.remarks())));
    return panels;
  }

  private Panel panel(String key, List<Part> parts) {
    return new Panel(words.of(key), parts);
  }

  private List<Fact> signature() {
    String operator = subject.judged().record().label(Label.OPERATOR);
    Optional<Signatory> by = issue.authorised();
    String who =
        by.map(s -> s.name() + ", " + s.role()).orElseGet(() -> words.of("sign.not-authorised"));
    boolean same = by.filter(s -> s.name().strip().equalsIgnoreCase(operator.strip())).isPresent();
    return List.of(
        Fact.of(words.of("sign.authorised"), who + (same ? " " + words.of("sign.same") : "")));
  }

  Map<String, Picture> pictures() {
    Headline headline = Headline.of(subject, terms);
    return Map.of(
        "mark", new MarkPicture(headline.mark()), "code", new QrPicture(Code.of(subject, issue)));
  }
}
