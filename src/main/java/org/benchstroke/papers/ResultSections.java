package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.unit.Practice;

/** The parts of a report that hold measured values. Stateless. */
final class ResultSections {
  private static final String NO_BREAK = "\u00a0";

  private static final Set<Word> NOT_MET =
      EnumSet.of(Word.FAIL, Word.CONDITIONAL_FAIL, Word.CONDITIONAL_PASS);

  private ResultSections() {}

  static Section measures(JudgedRun run) {
    if (run.judgements().isEmpty()) {
      return new Section("Measures", List.of(new Block.Paragraph("Nothing was measured.", true)));
    }
    List<List<Cell>> rows = judged(run, judgement -> judgement.limit().isPresent());
    return Section.of(
        "Measures",
        grid(rows),
        new Block.Paragraph("Nothing was judged: no limit was agreed.", true));
  }

  /** What keeps the unit from passing, by its figures; none if nothing does. */
  static Optional<Section> notMet(JudgedRun run) {
    List<Block> blocks = new ArrayList<>();
    List<List<Cell>> measures = judged(run, j -> j.word().filter(NOT_MET::contains).isPresent());
    if (!measures.isEmpty()) {
      blocks.add(grid(measures));
    }
    List<List<Cell>> orders = orders(run, order -> NOT_MET.contains(order.word()));
    if (!orders.isEmpty()) {
      blocks.add(grid("Ordered, and not met", orders));
    }
    return blocks.isEmpty() ? Optional.empty() : Optional.of(new Section("Not met", blocks));
  }

  private static Block.Grid grid(List<List<Cell>> rows) {
    return new Block.Grid(
        "U is the expanded uncertainty, k its coverage factor, Ratio the accuracy ratio"
            + " (tolerance ÷ U), P the probability that the true value is within the limit. "
            + Figures.READINGS_MARK
            + " "
            + Figures.OF_READINGS,
        List.of("Measure", "Result", "Value", "± U", "k", "Limit", "Ratio", "P"),
        rows);
  }

  /** A row for each value, and a single one for all places of a measure that has none. */
  private static List<List<Cell>> judged(JudgedRun run, Predicate<Judgement> which) {
    Map<String, List<Judgement>> rows = new LinkedHashMap<>();
    for (Judgement judgement : run.judgements()) {
      if (which.test(judgement)) {
        Measure measure = judgement.measure();
        String row =
            measure.value().isPresent()
                ? Figures.name(measure)
                : measure.kind().key() + measure.truth() + measure.note();
        rows.computeIfAbsent(row, key -> new ArrayList<>()).add(judgement);
      }
    }
    return rows.values().stream()
        .flatMap(
            of ->
                of.get(0).measure().value().isPresent()
                    ? of.stream().map(each -> judged(each, run.unit().practice()))
                    : Stream.of(without(of)))
        .toList();
  }

  private static List<Cell> without(List<Judgement> places) {
    Measure measure = places.get(0).measure();
    String where =
        places.size() == 1
            ? Figures.name(measure)
            : measure.title() + ", " + places.size() + " places";
    Cell none = Cell.number(Figures.NONE);
    return List.of(
        Cell.name(where.replace(" %", NO_BREAK + "%"), measure.note()),
        Cell.word(places.get(0).word()),
        none,
        none,
        none,
        Cell.name(Figures.limit(places.get(0)), ""),
        none,
        none);
  }

  /** What was measured without a limit: much, and no part of the verdict, so it stands late. */
  static Optional<Section> unjudged(JudgedRun run) {
    List<List<Cell>> rows =
        run.judgements().stream()
            .filter(judgement -> judgement.limit().isEmpty())
            .map(ResultSections::unjudged)
            .toList();
    return Section.of(
        "Measured and not judged",
        new Block.Grid(
            "No limit was agreed for these. " + Figures.READINGS_MARK + " " + Figures.OF_READINGS,
            List.of("Measure", "Value", "± U", "k", "Known by", "Method"),
            rows));
  }

  private static List<Cell> unjudged(Judgement judgement) {
    Measure measure = judgement.measure();
    return List.of(
        name(measure),
        Cell.number(Figures.valueWithUnit(measure)),
        half(judgement),
        Cell.number(Figures.coverageFactor(measure)),
        Cell.name(measure.truth().text(), ""),
        Cell.fine(measure.method()));
  }

  private static Cell name(Measure measure) {
    return Cell.name(Figures.name(measure).replace(" %", NO_BREAK + "%"), measure.note());
  }

  private static List<Cell> judged(Judgement judgement, Practice practice) {
    Measure measure = judgement.measure();
    return List.of(
        name(measure),
        Cell.word(judgement.word()),
        Cell.number(Figures.valueWithUnit(measure)),
        half(judgement),
        Cell.number(Figures.coverageFactor(measure)),
        Cell.name(Figures.limit(judgement), ""),
        ratio(judgement, practice),
        Cell.number(Figures.probability(judgement.probability())));
  }

  private static Cell half(Judgement judgement) {
    String mark = Figures.ofReadings(judgement) ? " " + Figures.READINGS_MARK : "";
    return Cell.number(Figures.half(judgement.measure()) + mark);
  }

  private static Cell ratio(Judgement judgement, Practice practice) {
    if (judgement.accuracyRatio().isEmpty()) {
      return Cell.number(Figures.NONE);
    }
    double ratio = judgement.accuracyRatio().getAsDouble();
    return switch (practice.grade(ratio)) {
      case GOOD -> Cell.number(Figures.ratio(ratio));
      case LOW -> Cell.number(Figures.ratio(ratio), "low");
      case REFUSED -> Cell.number(Figures.ratio(ratio), "too low");
    };
  }

  static Optional<Section> orders(JudgedRun run) {
    return Section.of(
        "As ordered",
        grid("What the order states against what was seen", orders(run, order -> true)));
  }

  private static Block.Grid grid(String caption, List<List<Cell>> orders) {
    return new Block.Grid(caption, List.of("What", "Ordered", "Found", "Result"), orders);
  }

  private static List<List<Cell>> orders(JudgedRun run, Predicate<AsOrdered> which) {
    return run.orders().stream()
        .filter(which)
        .map(
            order ->
                List.of(
                    Cell.text(order.what()),
                    Cell.text(order.ordered()),
                    Cell.text(orDash(order.found())),
                    Cell.word(Optional.of(order.word()))))
        .toList();
  }

  static Optional<Section> travel(JudgedRun run) {
    List<Block> blocks =
        Stream.of(Truth.FEEDBACK, Truth.STEM)
            .flatMap(truth -> travel(run, truth).stream())
            .toList();
    return blocks.isEmpty() ? Optional.empty() : Optional.of(new Section("Travel", blocks));
  }

  private static Optional<Block> travel(JudgedRun run, Truth truth) {
    boolean paired = TravelTable.paired(run, truth);
    List<List<Cell>> rows =
        TravelTable.rows(run, truth).stream().map(row -> travel(row, paired)).toList();
    if (rows.isEmpty()) {
      return Optional.empty();
    }
    String by =
        truth == Truth.STEM ? "by the angle reference on the stem" : "by the unit's feedback";
    return Optional.of(
        new Block.Grid(
            "Error = position − setpoint, "
                + by
                + ", % of travel. Up: approached from below; down: from above; H = down − up"
                + " (hysteresis + dead band)"
                + (paired ? ", largest of adjacent passes, and by means." : "."),
            headings(paired),
            rows));
  }

  private static List<String> headings(boolean paired) {
    List<String> headings =
        new ArrayList<>(
            List.of(
                "Setpoint, %", "Error up", "± U up", "Error down", "± U down", "H", "± U of H"));
    headings.addAll(paired ? List.of("H, means", "± U, means") : List.of());
    return headings;
  }

  private static List<Cell> travel(TravelTable.Row row, boolean paired) {
    List<Cell> cells = new ArrayList<>();
    cells.add(Cell.number(Numbers.plain(row.setpoint())));
    List<Optional<TravelTable.Figure>> figures =
        new ArrayList<>(List.of(row.up(), row.down(), row.adjacent()));
    figures.addAll(paired ? List.of(row.means()) : List.of());
    for (Optional<TravelTable.Figure> figure : figures) {
      cells.add(Cell.number(figure.map(TravelTable.Figure::text).orElse(Figures.NONE)));
      cells.add(Cell.number(figure.map(TravelTable.Figure::halfText).orElse(Figures.NONE)));
    }
    return cells;
  }
}
