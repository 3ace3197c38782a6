package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.papers.Methods;
import org.benchstroke.papers.sheets.Part.Cell;
import org.benchstroke.papers.sheets.Part.Fact;
import org.benchstroke.papers.sheets.Part.Table;
import org.benchstroke.papers.sheets.Part.Text;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.Event;
import org.benchstroke.record.Seal;
import org.benchstroke.tests.Catalogue;

/** What the results of a paper rest on: instruments, tests, methods, the record. */
final class BasisRows {
  private static final String COMPLETE = "complete";

  private final Subject subject;
  private final Issue issue;
  private final Terms terms;
  private final Words words;

  BasisRows(Subject subject, Issue issue, Terms terms) {
    this.subject = subject;
    this.issue = issue;
    this.terms = terms;
    this.words = terms.words();
  }

  List<Part> instruments() {
    Set<InstrumentSpec> all = new LinkedHashSet<>();
    subject.all().forEach(filed -> all.addAll(filed.run().bench().instruments()));
    List<List<Cell>> rows =
        all.stream()
            .map(
                i ->
                    List.of(
                        Cell.noted(i.name(), roles(i)),
                        Cell.noted(
                            JobRows.stated((i.maker() + " " + i.model()).strip(), words),
                            i.serial().isBlank() ? "" : words.of("instruments.serial", i.serial())),
                        Cell.noted(
                            JobRows.stated(i.calibration().certificate(), words),
                            i.calibration().laboratory().isBlank()
                                ? words.of("instruments.laboratory-not")
                                : i.calibration().laboratory()),
                        Cell.text(i.calibration().calibrated().toString()),
                        due(i)))
            .toList();
    return List.of(
        new Table(
            "instruments",
            List.of(
                Cell.text(words.of("instruments.name")),
                Cell.text(words.of("instruments.what")),
                Cell.text(words.of("instruments.certificate")),
                Cell.text(words.of("instruments.calibrated")),
                Cell.text(words.of("instruments.due"))),
            rows),
        Text.fine(words.of("instruments.traceability")));
  }

  private Cell due(InstrumentSpec instrument) {
    String day = instrument.calibration().due().toString();
    boolean overdue =
        subject.all().stream()
            .anyMatch(
                filed ->
                    filed.run().bench().instruments().contains(instrument)
                        && Standing.overdue(filed.run(), instrument));
    return overdue ? new Cell(day, words.of("instruments.overdue"), "strong") : Cell.text(day);
  }

  private String roles(InstrumentSpec instrument) {
    return instrument.roles().stream()
        .map(role -> words.of("role." + role.name()))
        .collect(Collectors.joining(", "));
  }

  /** What was tested, how often, and what was not. */
  List<Part> tests() {
    List<Part> parts = new ArrayList<>();
    Set<String> said = subject.all().stream().map(f -> done(f.run())).collect(Collectors.toSet());
    if (said.size() == 1 && subject.found().isPresent()) {
      parts.add(Text.plain(words.of("which.both", said.iterator().next())));
    }
    for (Filed filed : subject.all()) {
      if (said.size() > 1 || subject.found().isEmpty()) {
        parts.add(Text.plain(which(filed, done(filed.run()))));
      }
      String earlier = earlier(filed.run());
      if (!earlier.isEmpty()) {
        parts.add(Text.plain(which(filed, words.of("tests.earlier", earlier))));
      }
    }
    parts.add(Text.plain(words.of("tests.not", String.join(", ", notTested()))));
    return parts;
  }

  private String done(JudgedRun run) {
    String done = run.tests().stream().map(this::test).collect(Collectors.joining("; "));
    return words.of("tests.done", done.isEmpty() ? words.of("tests.none") : done);
  }

  private String behind(Filed filed, String name) {
    return subject.found().isEmpty()
        ? name
        : words.of(filed.equals(subject.run()) ? "which.left-behind" : "which.found-behind", name);
  }

  private String which(Filed filed, String sentence) {
    return subject.found().isEmpty()
        ? sentence
        : words.of(filed.equals(subject.run()) ? "which.left" : "which.found", sentence);
  }

  private String test(TestSummary test) {
    String done =
        test.outcome().equals(COMPLETE)
            ? ""
            : ", "
                + words.of("outcome." + test.outcome().replace(' ', '-'))
                + (test.reason().isBlank() ? "" : ": " + Terms.set(test.reason()));
    return terms.test(test.name()) + " (" + test.attempts() + ")" + done;
  }

  /** Attempts that did not count: none is hidden. */
  private String earlier(JudgedRun run) {
    List<String> told = new ArrayList<>();
    for (int i = 0; i < run.tests().size(); i++) {
      int index = i;
      TestSummary test = run.tests().get(i);
      run.record()
          .events(Event.TestEnded.class)
          .filter(e -> e.index() == index && e.attempt() < test.attempts())
          .filter(e -> !e.outcome().equals(COMPLETE))
          .forEach(
              e ->
                  told.add(
                      words.of(
                          "tests.attempt",
                          terms.test(e.test()),
                          e.attempt(),
                          Terms.set(e.reason()))));
    }
    return String.join("; ", told);
  }

  private List<String> notTested() {
    Set<String> done =
        subject.judged().tests().stream()
            .filter(t -> t.outcome().equals(COMPLETE))
            .map(TestSummary::name)
            .collect(Collectors.toSet());
    List<String> not = new ArrayList<>();
    if (!subject.judged().stemProven()) {
      not.add(words.of("tests.stem"));
    }
    Catalogue.names().stream().filter(n -> !done.contains(n)).map(terms::test).forEach(not::add);
    not.add(words.of("tests.insulation"));
    not.add(words.of("tests.seat"));
    return not;
  }

  /** Names and editions of the methods that figures were taken by. */
  List<Part> methods() {
    Set<String> used = new LinkedHashSet<>();
    for (Filed filed : subject.all()) {
      filed.run().judgements().stream()
          .map(j -> j.measure())
          .filter(m -> m.value().isPresent())
          .map(Measure::method)
          .forEach(used::add);
      filed.run().orders().forEach(order -> used.add(order.method()));
    }
    return List.of(Text.fine(words.of("methods.used", String.join(", ", used), Methods.DOCUMENT)));
  }

  /** How the figures are meant. */
  List<Part> reading() {
    return List.of(
        Text.fine(words.of("reading.uncertainty")),
        Text.fine(words.of("reading.span")),
        Text.fine(
            words.of(
                subject.judged().stemProven() ? "reading.truth-stem" : "reading.truth-feedback")),
        Text.fine(words.of("reading.scope")));
  }

  /** The record, its seal and the programs. */
  List<Part> record() {
    List<Fact> facts = new ArrayList<>();
    for (Filed filed : subject.all()) {
      JudgedRun run = filed.run();
      facts.add(Fact.wide(behind(filed, words.of("record.file")), filed.name()));
      run.record()
          .digest()
          .ifPresent(d -> facts.add(Fact.wide(words.of("record.digest"), d.sha256())));
      facts.addAll(amended(run));
    }
    seal(facts);
    facts.add(
        Fact.wide(
            words.of("record.programs"),
            words.of(
                "record.programs-are",
                subject.judged().record().opened().tool(),
                issue.program(),
                subject.judged().procedure().name(),
                subject.judged().procedure().version())));
    return List.of(new Part.Facts(facts));
  }

  private void seal(List<Fact> facts) {
    Map<String, String> keys = new TreeMap<>();
    subject.all().stream()
        .flatMap(filed -> filed.run().record().seal().flatMap(Seal::key).stream())
        .forEach(key -> keys.put(key.base64(), key.fingerprint()));
    keys.forEach(
        (key, fingerprint) -> {
          facts.add(Fact.wide(words.of("record.key"), key));
          facts.add(Fact.wide(words.of("record.fingerprint"), fingerprint));
        });
    if (keys.isEmpty()) {
      facts.add(Fact.wide(words.of("record.key"), words.of("record.not-sealed")));
    }
  }

  private List<Fact> amended(JudgedRun run) {
    List<Fact> facts = new ArrayList<>();
    for (Amendment a : run.record().amendments().all()) {
      facts.add(
          Fact.wide(
              words.of("record.amended"),
              words.of(
                  "record.amended-is",
                  words.maybe("label." + a.label().key()).orElse(a.label().words()),
                  a.is(),
                  JobRows.stated(a.was(), words),
                  a.by(),
                  Terms.minute(a.utc(), issue.zone()),
                  a.reason())));
    }
    return facts;
  }

  Part remarks() {
    Optional<String> said = Optional.of(issue.said().remarks()).filter(r -> !r.isBlank());
    return Text.plain(said.orElseGet(() -> words.of("none")));
  }
}
