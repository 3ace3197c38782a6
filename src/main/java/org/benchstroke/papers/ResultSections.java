package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.unit.Practice;

/** The parts of a report that hold measured values. Stateless. */
final class ResultSections {
  private static final String NO_BREAK = "\u00a0";

  private ResultSections() {}

  static Section measures(JudgedRun run) {
    if (run.judgements().isEmpty()) {
      return new Section("Measures", List.of(new Block.Paragraph("Nothing was measured.", true)));
    }
    List<List<Cell>> rows =
        run.judgements().stream()
            .filter(judgement -> judgement.limit().isPresent())
            .map(judgement -> judged(judgement, run.unit().practice()))
            .toList();
    return Section.of(
        "Measures",
        new Block.Grid(
            "U is the expanded uncertainty, k its coverage factor, Ratio the accuracy ratio"
                + " (tolerance ÷ U), P the probability that the true value is within the"
                + " limit. "
                + Figures.READINGS_MARK
                + " "
                + Figures.OF_READINGS,
            List.of(
                "Measure",
                "Result",
                "Value",
                "± U",
                "k",
                "Limit",
                "Ratio",
                "P",
                "Known by",
                "Method"),
            rows),
        new Block.Paragraph("Nothing was judged: no limit was agreed.", true));
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
            List.of("Measure", "Result", "Value", "± U", "k", "Known by", "Method"),
            rows));
  }

  private static List<Cell> unjudged(Judgement judgement) {
    Measure measure = judgement.measure();
    return List.of(
        name(measure),
        Cell.word(judgement.word()),
        Cell.number(Figures.valueWithUnit(measure)),
        half(judgement),
        Cell.number(Figures.coverageFactor(measure)),
        Cell.name(measure.truth().text(), ""),
        Cell.fine(measure.method()));
  }

  private static Cell name(Measure measure) {
    String place = Location.at(measure.place());
    return Cell.name(measure.kind().title() + place.replace(" %", NO_BREAK + "%"), measure.note());
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
        Cell.number(Figures.probability(judgement.probability())),
        Cell.name(measure.truth().text(), ""),
        Cell.fine(measure.method()));
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
    if (run.orders().isEmpty()) {
      return Optional.empty();
    }
    List<List<Cell>> rows =
        run.orders().stream()
            .map(
                order ->
                    List.of(
                        Cell.noted(order.what(), order.method()),
                        Cell.text(order.ordered()),
                        Cell.text(orDash(order.found())),
                        Cell.word(Optional.of(order.word()))))
            .toList();
    return Optional.of(
        new Section(
            "As ordered",
            List.of(
                new Block.Grid(
                    "What the order states against what was seen",
                    List.of("What", "Ordered", "Found", "Result"),
                    rows))));
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
