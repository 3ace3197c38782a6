package org.benchstroke.papers.sheets;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.bench.TemperatureRange;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.sheets.Part.Fact;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.unit.MeasureKind;

/** When, where, in what air and how a unit was tested, as rows of a paper. */
final class TestRows {
  private final Subject subject;
  private final Issue issue;
  private final Words words;

  TestRows(Subject subject, Issue issue, Terms terms) {
    this.subject = subject;
    this.issue = issue;
    this.words = terms.words();
  }

  List<Fact> all() {
    JudgedRun run = subject.judged();
    List<Fact> rows = new ArrayList<>();
    for (Filed filed : subject.all()) {
      rows.add(Fact.wide(which(filed, "test.date"), date(filed.run())));
    }
    rows.add(Fact.wide(words.of("test.issued"), Terms.minute(issue.issued(), issue.zone())));
    rows.add(Fact.of(words.of("test.place"), JobRows.stated(run.bench().place(), words)));
    rows.add(Fact.of(words.of("test.bench"), JobRows.stated(run.bench().name(), words)));
    Set<String> airs = subject.all().stream().map(f -> air(f.run())).collect(Collectors.toSet());
    boolean one = airs.size() == 1;
    for (Filed filed : one ? List.of(subject.run()) : subject.all()) {
      rows.add(Fact.of(one ? words.of("test.air") : which(filed, "test.air"), air(filed.run())));
    }
    rows.add(Fact.of(words.of("test.supply"), supply(run)));
    rows.add(Fact.of(words.of("test.procedure"), procedure()));
    rows.add(
        Fact.of(
            words.of("test.sampling"),
            Terms.set(
                words.of(
                    "test.sampling-is",
                    Numbers.plain(run.bench().samplePeriodSeconds()),
                    Numbers.plain(1.0 / run.bench().samplePeriodSeconds())))));
    rows.add(
        Fact.of(
            words.of("test.truth"),
            words.of(run.stemProven() ? "test.truth-stem" : "test.truth-feedback")));
    rows.add(
        Fact.of(
            words.of("test.deviations"),
            issue.said().deviations().isBlank()
                ? words.of("none-stated")
                : issue.said().deviations()));
    subject
        .found()
        .ifPresent(
            found ->
                rows.add(
                    Fact.wide(
                        words.of("test.adjusted"), JobRows.stated(subject.adjusted(), words))));
    return rows;
  }

  private String which(Filed filed, String key) {
    String name = words.of(key);
    return subject.found().isEmpty()
        ? name
        : words.of(filed.equals(subject.run()) ? "which.left-behind" : "which.found-behind", name);
  }

  private String date(JudgedRun run) {
    if (!run.imported().map(Event.Imported::dated).orElse(true)) {
      return words.of("test.undated");
    }
    List<Entry> entries = run.record().entries();
    Instant end = entries.get(entries.size() - 1).utc();
    ZoneOffset there = run.record().offset();
    String from = Terms.minute(ReportPages.began(run), there);
    String to = Terms.minute(end, there);
    // the same day, zone and words once
    String same = from.substring(0, 11);
    return to.startsWith(same)
        ? from.replace(" (", "–" + to.substring(11, 16) + " (")
        : from + " – " + to;
  }

  private String air(JudgedRun run) {
    Map<String, Double> stated =
        run.record().events(Event.Job.class).map(Event.Job::air).findFirst().orElse(Map.of());
    List<String> said = new ArrayList<>();
    Optional.ofNullable(stated.get(Event.Job.TEMPERATURE))
        .ifPresent(c -> said.add(Numbers.plain(c) + " °C"));
    Optional.ofNullable(stated.get(Event.Job.HUMIDITY))
        .ifPresent(h -> said.add(words.of("test.humidity", Numbers.plain(h))));
    run.bench()
        .ambient()
        .filter(range -> said.isEmpty())
        .ifPresent(range -> said.add(words.of("test.air-usual", between(range))));
    return said.isEmpty() ? words.of("not-stated") : Terms.set(String.join(", ", said));
  }

  private static String between(TemperatureRange range) {
    return Numbers.plain(range.lowCelsius()) + "–" + Numbers.plain(range.highCelsius()) + " °C";
  }

  private String supply(JudgedRun run) {
    Optional<Measure> measured =
        run.judgements().stream()
            .map(Judgement::measure)
            .filter(m -> m.kind() == MeasureKind.SUPPLY_AT_REST && m.value().isPresent())
            .findFirst();
    Terms terms = new Terms(words);
    return measured
        .map(m -> words.of("test.supply-is", terms.value(m), Terms.set(Figures.half(m))))
        .orElseGet(() -> words.of("test.supply-not"));
  }

  private String procedure() {
    return subject.all().stream()
        .map(Filed::run)
        .map(r -> words.of("test.procedure-is", r.procedure().name(), r.procedure().version()))
        .distinct()
        .collect(Collectors.joining("; "));
  }
}
