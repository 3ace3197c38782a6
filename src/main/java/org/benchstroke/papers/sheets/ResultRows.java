package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.judge.Adjustment.Pair;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.sheets.Part.Cell;
import org.benchstroke.papers.sheets.Part.Table;
import org.benchstroke.papers.sheets.Part.Text;
import org.benchstroke.unit.DecisionRule;

/** What was measured and judged, as tables: of one run, or as found and as left side by side. */
final class ResultRows {
  /** More values of a kind than that are left to the annex. */
  private static final int FEW = 2;

  private final Subject subject;
  private final Terms terms;
  private final Words words;
  private final boolean both;
  private final List<DecisionRule> rules;

  ResultRows(Subject subject, Terms terms) {
    this.subject = subject;
    this.terms = terms;
    this.words = terms.words();
    this.both = subject.found().isPresent();
    this.rules =
        measures().stream()
            .flatMap(pair -> Stream.of(pair.asFound(), pair.asLeft()).flatMap(Optional::stream))
            .flatMap(judgement -> judgement.limit().stream())
            .map(limit -> limit.rule())
            .distinct()
            .toList();
  }

  private List<Pair<Judgement>> measures() {
    return subject
        .adjustment()
        .map(a -> a.measures())
        .orElseGet(
            () ->
                subject.judged().judgements().stream()
                    .filter(j -> j.limit().isPresent())
                    .map(j -> new Pair<>(Optional.<Judgement>empty(), Optional.of(j)))
                    .toList());
  }

  /** The limited results with the rule that they were judged by. */
  List<Part> results() {
    List<Part> parts = new ArrayList<>();
    List<List<Cell>> rows = new ArrayList<>();
    String before = "";
    for (Pair<Judgement> pair : measures()) {
      String title = terms.title(pair.any().measure());
      rows.add(result(pair, title, title.equals(before)));
      before = title;
    }
    parts.add(
        rows.isEmpty()
            ? Text.strong(words.of("results.none"))
            : new Table(both ? "results both" : "results", headings(), rows));
    for (int i = 0; i < rules.size(); i++) {
      String rule = terms.rule(rules.get(i));
      parts.add(
          Text.plain(
              rules.size() == 1
                  ? words.of("results.rule", rule)
                  : words.of("results.rule-of", i + 1, rule)));
    }
    if (measures().stream().anyMatch(this::ofReadings)) {
      parts.add(Text.fine(words.of("results.of-readings", Figures.READINGS_MARK)));
    }
    return parts;
  }

  private boolean ofReadings(Pair<Judgement> pair) {
    return Stream.of(pair.asFound(), pair.asLeft())
        .flatMap(Optional::stream)
        .anyMatch(Figures::ofReadings);
  }

  private List<Cell> headings() {
    List<Cell> cells = new ArrayList<>();
    cells.add(Cell.text(words.of("results.result")));
    cells.add(Cell.text(words.of("results.place")));
    cells.add(Cell.text(words.of("results.truth")));
    cells.add(Cell.text(words.of("results.limit")));
    for (String which : both ? List.of("which.found-is", "which.left-is") : List.of("")) {
      cells.add(
          new Cell(which.isEmpty() ? words.of("results.value") : words.of(which), "", "figure"));
      cells.add(Cell.number(words.of("results.half")));
      cells.add(Cell.number("k"));
      cells.add(Cell.text(words.of("results.conformity")));
    }
    return cells;
  }

  private List<Cell> result(Pair<Judgement> pair, String title, boolean again) {
    Measure any = pair.any().measure();
    List<Cell> cells = new ArrayList<>();
    cells.add(again ? Cell.soft(title) : Cell.text(title));
    cells.add(Cell.text(places(pair)));
    cells.add(Cell.text(terms.truth(any.truth())));
    cells.add(Cell.text(limits(pair)));
    for (Optional<Judgement> side :
        both ? List.of(pair.asFound(), pair.asLeft()) : List.of(pair.asLeft())) {
      cells.add(Cell.number(side.map(j -> terms.value(j.measure())).orElse(Figures.NONE)));
      cells.add(Cell.number(side.map(terms::half).orElse(Figures.NONE)));
      cells.add(Cell.number(side.map(j -> terms.k(j.measure())).orElse(Figures.NONE)));
      cells.add(side.map(this::conformity).orElseGet(() -> Cell.text(words.of("results.absent"))));
    }
    return cells;
  }

  private Cell conformity(Judgement judgement) {
    Word word = judgement.word().orElse(Word.NO_RESULT);
    boolean good = word == Word.PASS;
    return good ? Cell.text(terms.marked(word)) : Cell.strong(terms.marked(word));
  }

  private String places(Pair<Judgement> pair) {
    Set<String> places = new TreeSet<>();
    Stream.of(pair.asFound(), pair.asLeft())
        .flatMap(Optional::stream)
        .map(j -> terms.place(j.measure()))
        .forEach(places::add);
    return places.size() == 1
        ? places.iterator().next()
        : Stream.of(pair.asFound(), pair.asLeft())
            .flatMap(Optional::stream)
            .map(j -> terms.place(j.measure()))
            .collect(Collectors.joining("; "));
  }

  private String limits(Pair<Judgement> pair) {
    return Stream.of(pair.asFound(), pair.asLeft())
        .flatMap(Optional::stream)
        .flatMap(j -> j.limit().stream())
        .map(
            l ->
                terms.limit(l)
                    + (rules.size() > 1
                        ? " " + words.of("results.by-rule", rules.indexOf(l.rule()) + 1)
                        : ""))
        .distinct()
        .collect(Collectors.joining("; "));
  }

  /** What is as ordered and what isn't. */
  List<Part> orders() {
    List<Pair<AsOrdered>> pairs =
        subject
            .adjustment()
            .map(a -> a.orders())
            .orElseGet(
                () ->
                    subject.judged().orders().stream()
                        .map(o -> new Pair<>(Optional.<AsOrdered>empty(), Optional.of(o)))
                        .toList());
    if (pairs.isEmpty()) {
      return List.of(Text.plain(words.of("orders.none")));
    }
    List<Cell> headings = new ArrayList<>();
    headings.add(Cell.text(words.of("orders.what")));
    headings.add(Cell.text(words.of("orders.ordered")));
    if (both) {
      headings.add(Cell.text(words.of("which.found-is")));
      headings.add(Cell.text(words.of("which.left-is")));
    } else {
      headings.add(Cell.text(words.of("orders.found")));
      headings.add(Cell.text(words.of("results.conformity")));
    }
    List<List<Cell>> rows = new ArrayList<>();
    alike(pairs).forEach(group -> rows.add(order(group)));
    return List.of(new Table(both ? "orders both" : "orders", headings, rows));
  }

  /** Orders of one subject that are alike and all met are one row: five holds, for instance. */
  private List<List<Pair<AsOrdered>>> alike(List<Pair<AsOrdered>> pairs) {
    Map<Object, List<Pair<AsOrdered>>> groups = new LinkedHashMap<>();
    for (Pair<AsOrdered> pair : pairs) {
      AsOrdered any = pair.any();
      boolean met =
          Stream.of(pair.asFound(), pair.asLeft())
              .flatMap(Optional::stream)
              .allMatch(o -> o.word() == Word.PASS);
      boolean joins = met && any.isOf(AsOrdered.Subject.HUNTING);
      Object key = joins ? List.of(any.subject(), any.ordered()) : pair;
      groups.computeIfAbsent(key, k -> new ArrayList<>()).add(pair);
    }
    return List.copyOf(groups.values());
  }

  private List<Cell> order(List<Pair<AsOrdered>> group) {
    AsOrdered first = group.get(0).any();
    List<Cell> cells = new ArrayList<>();
    cells.add(
        Cell.text(
            group.size() == 1
                ? terms.what(first)
                : words.of(
                    "orders.several",
                    terms.words().of("order." + first.subject().name()),
                    Terms.set(
                        group.stream()
                            .map(p -> p.any().which())
                            .collect(Collectors.joining(", "))))));
    cells.add(Cell.text(Terms.set(first.ordered())));
    if (both) {
      cells.add(group.get(0).asFound().map(this::seen).orElseGet(this::absent));
      cells.add(group.get(0).asLeft().map(this::seen).orElseGet(this::absent));
    } else {
      cells.add(
          Cell.text(group.size() == 1 ? Terms.set(first.found()) : words.of("orders.at-each")));
      cells.add(word(first));
    }
    return cells;
  }

  private Cell absent() {
    return Cell.text(words.of("results.absent"));
  }

  /** Beside another run only what is not as ordered is spelled out; the annex has the rest. */
  private Cell seen(AsOrdered order) {
    String note = order.word() == Word.PASS ? "" : Terms.set(order.found());
    return new Cell(
        terms.marked(order.word()), note, order.word() == Word.PASS ? "words" : "strong");
  }

  private Cell word(AsOrdered order) {
    return order.word() == Word.PASS
        ? Cell.text(terms.marked(order.word()))
        : Cell.strong(terms.marked(order.word()));
  }

  /** What was measured without a limit, in a sentence; the annex has the many of a kind. */
  Optional<Part> unjudged() {
    Map<Object, List<Judgement>> kinds = new LinkedHashMap<>();
    subject.judged().judgements().stream()
        .filter(j -> j.limit().isEmpty() && j.measure().value().isPresent())
        .forEach(
            j ->
                kinds
                    .computeIfAbsent(
                        List.of(j.measure().kind(), j.measure().truth()), k -> new ArrayList<>())
                    .add(j));
    if (kinds.isEmpty()) {
      return Optional.empty();
    }
    List<String> few = new ArrayList<>();
    int more = 0;
    for (List<Judgement> kind : kinds.values()) {
      if (kind.size() <= FEW) {
        kind.forEach(j -> few.add(sentence(j)));
      } else {
        more += kind.size();
      }
    }
    String rest = more == 0 ? "" : " " + words.of("results.more", more);
    return Optional.of(Text.plain(words.of("results.unjudged", String.join("; ", few)) + rest));
  }

  private String sentence(Judgement judgement) {
    Measure measure = judgement.measure();
    String place = terms.place(measure);
    String title = terms.title(measure);
    return (measure.truth() == Truth.STEM ? words.of("headline.of-stem", title) : title)
        + (place.isEmpty() ? "" : " (" + place + ")")
        + " "
        + terms.value(measure)
        + "\u00a0±\u00a0"
        + terms.half(judgement);
  }
}
