package org.benchstroke.papers.sheets;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.sheets.Part.Cell;
import org.benchstroke.papers.sheets.Part.Table;
import org.benchstroke.papers.sheets.Part.Text;
import org.benchstroke.record.Label;
import org.benchstroke.unit.Limit;

/** Puts a judged run into the words of whoever adjusts the unit. */
final class WorkshopSheet {
  private static final int MOST = 6;
  private static final List<Word> WORST_FIRST =
      List.of(Word.FAIL, Word.CONDITIONAL_FAIL, Word.NO_RESULT, Word.CONDITIONAL_PASS);

  private final Subject subject;
  private final Issue issue;
  private final Terms terms;
  private final Words words;
  private final JudgedRun run;

  WorkshopSheet(Subject subject, Issue issue) {
    this.subject = subject;
    this.issue = issue;
    this.words = Words.of(issue.language());
    this.terms = new Terms(words);
    this.run = subject.judged();
  }

  SheetPage page() {
    List<Panel> panels = new ArrayList<>();
    panels.add(new Panel(words.of("sheet.fails"), fails()));
    Diagnosis diagnosis = subject.run().aids().diagnosis();
    if (run.imported().isPresent()) {
      panels.add(
          new Panel(words.of("sheet.cause"), List.of(Text.plain(words.of("sheet.elsewhere")))));
    } else {
      panels.add(new Panel(words.of("sheet.cause"), causes(diagnosis)));
      panels.add(new Panel(words.of("sheet.turn"), turn(diagnosis)));
      diagnosis
          .next()
          .ifPresent(
              next ->
                  panels.add(
                      new Panel(
                          words.of("sheet.sure"), List.of(Text.plain(sentence(next) + ".")))));
    }
    panels.add(new Panel(words.of("sheet.again"), again()));
    return new SheetPage(
        Frames.of(subject, issue, words, words.of("title.sheet")),
        Headline.of(subject, terms),
        List.of(JobRows.stated(run.record().label(Label.SERIAL), words), run.unit().name()),
        panels);
  }

  private static String sentence(String text) {
    return text.isEmpty()
        ? text
        : Terms.set(Character.toUpperCase(text.charAt(0)) + text.substring(1));
  }

  /** A row of what fails, by how badly it does. */
  private record Row(Word word, List<Cell> cells) {}

  private static Word word(Judgement judgement) {
    return judgement.word().orElse(Word.NO_RESULT);
  }

  private List<Cell> order(AsOrdered order) {
    return List.of(
        Cell.text(terms.what(order)),
        Cell.text(Terms.set(order.found().isBlank() ? Figures.NONE : order.found())),
        Cell.text(Terms.set(order.ordered())),
        Cell.strong(terms.marked(order.word())));
  }

  private List<Part> fails() {
    List<Row> found = new ArrayList<>();
    Map<Object, List<Judgement>> kinds = new LinkedHashMap<>();
    run.judgements().stream()
        .filter(j -> j.word().isPresent() && j.word().get() != Word.PASS)
        .forEach(
            j ->
                kinds
                    .computeIfAbsent(
                        List.of(j.measure().kind(), j.measure().truth(), j.word()),
                        k -> new ArrayList<>())
                    .add(j));
    kinds.values().forEach(alike -> found.add(new Row(word(alike.get(0)), measure(alike))));
    run.orders().stream()
        .filter(order -> order.word() != Word.PASS)
        .forEach(order -> found.add(new Row(order.word(), order(order))));
    List<List<Cell>> rows =
        found.stream()
            .sorted(Comparator.comparing(row -> WORST_FIRST.indexOf(row.word())))
            .map(Row::cells)
            .toList();
    if (rows.isEmpty()) {
      return List.of(Text.plain(words.of("sheet.nothing-fails")));
    }
    List<Part> parts = new ArrayList<>();
    parts.add(
        new Table(
            "fails",
            List.of(
                Cell.text(words.of("results.result")),
                Cell.text(words.of("sheet.value")),
                Cell.text(words.of("results.limit")),
                Cell.text(words.of("results.conformity"))),
            rows.subList(0, Math.min(MOST, rows.size()))));
    if (rows.size() > MOST) {
      parts.add(Text.fine(words.of("sheet.more", rows.size() - MOST)));
    }
    return parts;
  }

  /** The worst of those that are alike. */
  private List<Cell> measure(List<Judgement> alike) {
    Judgement worst =
        alike.stream().max(Comparator.comparingDouble(WorkshopSheet::over)).orElseThrow();
    Measure measure = worst.measure();
    String place = terms.place(measure);
    String where =
        alike.size() > 1
            ? words.of("sheet.worst", alike.size(), place)
            : place.isEmpty() ? "" : place;
    String by = words.of("sheet.known-by", terms.truth(measure.truth()));
    String value =
        measure.value().isPresent()
            ? terms.value(measure) + "\u00a0±\u00a0" + terms.half(worst)
            : Terms.set(measure.note().isBlank() ? Figures.NONE : measure.note());
    return List.of(
        Cell.noted(terms.title(measure), where.isEmpty() ? by : where + "; " + by),
        Cell.noted(value, beyond(worst).orElse("")),
        Cell.text(worst.limit().map(terms::limit).orElse(Figures.NONE)),
        Cell.strong(terms.marked(word(worst))));
  }

  /** How far a value is beyond its limit, or still within. */
  private Optional<String> beyond(Judgement judgement) {
    Measure measure = judgement.measure();
    if (measure.value().isEmpty() || judgement.limit().isEmpty()) {
      return Optional.empty();
    }
    double over = over(measure.value().get(), judgement.limit().get());
    int decimals = Figures.decimals(Figures.expanded(measure).map(Expanded::half).orElse(0.0));
    String amount = Numbers.fixed(Math.abs(over), decimals) + " " + measure.kind().unit();
    return Optional.of(Terms.set(words.of(over > 0.0 ? "sheet.beyond" : "sheet.within", amount)));
  }

  private static double over(Judgement judgement) {
    Optional<Double> value = judgement.measure().value();
    return value.isPresent() && judgement.limit().isPresent()
        ? over(value.get(), judgement.limit().get())
        : Double.NEGATIVE_INFINITY;
  }

  private static double over(double value, Limit limit) {
    OptionalDouble low = limit.low();
    OptionalDouble high = limit.high();
    double above = high.isPresent() ? value - high.getAsDouble() : Double.NEGATIVE_INFINITY;
    double below = low.isPresent() ? low.getAsDouble() - value : Double.NEGATIVE_INFINITY;
    return Math.max(above, below);
  }

  private List<Part> causes(Diagnosis diagnosis) {
    List<Part> parts = new ArrayList<>();
    if (diagnosis.outcome().namesCauses()) {
      for (List<RankedCause> alike : diagnosis.named()) {
        for (RankedCause each : alike) {
          String or = each.equals(alike.get(0)) ? "" : words.of("sheet.or") + " ";
          String sure = Numbers.fixed(100.0 * each.probability(), 0) + "\u00a0%";
          parts.add(Text.strong(or + sentence(each.cause().title()) + ", " + sure));
        }
      }
      parts.add(Text.fine(words.of("sheet.aid")));
    } else {
      diagnosis
          .linesBeside(run.findings())
          .forEach(line -> parts.add(Text.plain(Terms.set(line.strip()))));
    }
    return parts;
  }

  private List<Part> turn(Diagnosis diagnosis) {
    List<Part> parts = new ArrayList<>();
    parts.add(
        diagnosis.advice().isBlank()
            ? Text.plain(words.of("sheet.no-advice"))
            : Text.strong(sentence(diagnosis.advice()) + "."));
    parts.add(Text.plain(words.of("sheet.caution")));
    return parts;
  }

  private List<Part> again() {
    List<Part> parts = new ArrayList<>();
    List<String> open =
        run.tests().stream()
            .filter(t -> !t.outcome().equals("complete"))
            .map(TestSummary::name)
            .map(terms::test)
            .toList();
    if (!open.isEmpty()) {
      parts.add(Text.plain(words.of("sheet.again-void", String.join(", ", open))));
    }
    parts.add(
        Text.plain(
            run.passed()
                ? words.of("sheet.again-no")
                : words.of("sheet.again-is", run.procedure().name())));
    return parts;
  }
}
