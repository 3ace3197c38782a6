package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.Adjustment.Pair;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.papers.Block.Fact;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordDigest;

/** Puts a unit as found and as left into the words of one report. A pure function; stateless. */
final class AdjustmentPage {
  private static final String FOUND = "As found";
  private static final String LEFT = "As left";

  private AdjustmentPage() {}

  static ReportPage of(
      Adjustment adjustment,
      HtmlReport.RecordFile foundFile,
      HtmlReport.RecordFile leftFile,
      Optional<Signatory> authorised,
      String style) {
    JudgedRun found = adjustment.asFound();
    JudgedRun left = adjustment.asLeft();
    List<Section> sections = new ArrayList<>();
    sections.add(both(adjustment, foundFile, leftFile));
    measures(adjustment).ifPresent(sections::add);
    orders(adjustment).ifPresent(sections::add);
    sections.addAll(
        named(LEFT, ReportPages.sections(leftFile.aids(), Optional.of(leftFile.name()))));
    sections.addAll(
        named(FOUND, ReportPages.sections(foundFile.aids(), Optional.of(foundFile.name()))));
    sections.add(Signatory.section(left, authorised));
    return new ReportPage(
        ReportPages.number(left) + "-with-as-found",
        orDash(left.record().label(Label.SERIAL)),
        ReportPages.headed(left),
        ReportPages.headline(left),
        ReportPages.reason(left) + " As found: " + ReportPages.shown(found).ofUnit() + ".",
        notices(adjustment),
        left.simulated() || found.simulated(),
        sections,
        BenchSections.basis(left),
        style);
  }

  private static List<Section> named(String which, List<Section> sections) {
    return sections.stream().map(s -> new Section(which + ": " + s.title(), s.blocks())).toList();
  }

  private static List<String> notices(Adjustment adjustment) {
    List<String> notices = new ArrayList<>();
    notices.add(
        "AS LEFT, after an adjustment. As found: "
            + ReportPages.shown(adjustment.asFound()).ofUnit()
            + ". "
            + adjustment.asFound().reason());
    if (!adjustment.sameUnitTypeFile()) {
      notices.add(
          "UNIT TYPE FILE CHANGED between the two runs: limits or settings may not be the same.");
    }
    notices.addAll(ReportPages.notices(adjustment.asLeft()));
    ReportPages.notices(adjustment.asFound()).stream()
        .filter(notice -> !notices.contains(notice))
        .map(notice -> FOUND + ": " + notice)
        .forEach(notices::add);
    return notices;
  }

  private static Section both(
      Adjustment adjustment, HtmlReport.RecordFile foundFile, HtmlReport.RecordFile leftFile) {
    JudgedRun found = adjustment.asFound();
    JudgedRun left = adjustment.asLeft();
    List<List<Cell>> rows = new ArrayList<>();
    rows.add(
        List.of(
            Cell.text("Verdict"),
            Cell.word(Optional.of(ReportPages.shown(found))),
            Cell.word(Optional.of(ReportPages.shown(left)))));
    rows.add(row("Why", found.reason(), left.reason()));
    rows.add(row("Date", ReportPages.date(found), ReportPages.date(left)));
    rows.add(
        row("Operator", found.record().label(Label.OPERATOR), left.record().label(Label.OPERATOR)));
    rows.add(row("Procedure", procedure(found), procedure(left)));
    rows.add(row("Bench", found.bench().name(), left.bench().name()));
    rows.add(row("Report of its own", ReportPages.number(found), ReportPages.number(left)));
    rows.add(row("Record", foundFile.name(), leftFile.name()));
    int passes = adjustment.firstPasses();
    List<Fact> facts =
        List.of(
            new Fact(
                "Adjusted, in the words of whoever did it",
                adjustment.done().isBlank() ? "not stated" : adjustment.done()),
            new Fact("First-pass yield", passes + " of 1"),
            new Fact("SHA-256 of the record, as found", digest(found)),
            new Fact("SHA-256 of the record, as left", digest(left)),
            new Fact("Other records of this unit", "not looked at"));
    return new Section(
        "As found and as left",
        List.of(
            new Block.Grid("Two runs; neither record was changed", heads(), rows),
            new Block.Facts(facts)));
  }

  private static String digest(JudgedRun run) {
    return run.record().digest().map(RecordDigest::sha256).orElse(Figures.NONE);
  }

  private static List<String> heads() {
    return List.of("What", FOUND, LEFT);
  }

  private static List<Cell> row(String what, String found, String left) {
    return List.of(Cell.text(what), Cell.text(orDash(found)), Cell.text(orDash(left)));
  }

  private static String procedure(JudgedRun run) {
    return run.procedure().name() + ", version " + run.procedure().version();
  }

  private static Optional<Section> measures(Adjustment adjustment) {
    List<List<Cell>> rows = adjustment.measures().stream().map(AdjustmentPage::measure).toList();
    return Section.of(
        "Measures, as found and as left",
        new Block.Grid(
            "What has a limit; U is the expanded uncertainty of the value beside it.",
            List.of("Measure", FOUND, "Value", "± U", LEFT, "Value", "± U", "Limit"),
            rows));
  }

  private static List<Cell> measure(Pair<Judgement> pair) {
    Measure any = pair.any().measure();
    List<Cell> cells = new ArrayList<>();
    cells.add(Cell.name(any.title() + place(pair), ""));
    for (Optional<Judgement> side : List.of(pair.asFound(), pair.asLeft())) {
      cells.add(side.map(j -> Cell.word(j.word())).orElseGet(() -> Cell.text("not in this run")));
      cells.add(Cell.number(of(side, j -> Figures.valueWithUnit(j.measure()))));
      cells.add(Cell.number(of(side, j -> Figures.half(j.measure()))));
    }
    cells.add(Cell.name(limits(pair), ""));
    return cells;
  }

  private static String place(Pair<Judgement> pair) {
    String found = of(pair.asFound(), j -> j.measure().place().behind());
    String left = of(pair.asLeft(), j -> j.measure().place().behind());
    boolean one = found.equals(left) || pair.asFound().isEmpty() || pair.asLeft().isEmpty();
    return one ? pair.any().measure().place().behind() : found + ", then" + left;
  }

  private static String limits(Pair<Judgement> pair) {
    String found = of(pair.asFound(), Figures::limit);
    String left = of(pair.asLeft(), Figures::limit);
    boolean one = found.equals(left) || pair.asFound().isEmpty() || pair.asLeft().isEmpty();
    return one ? Figures.limit(pair.any()) : found + ", then " + left;
  }

  private static <T> String of(Optional<T> side, Function<T, String> text) {
    return side.map(text).orElse(Figures.NONE);
  }

  private static Optional<Section> orders(Adjustment adjustment) {
    List<List<Cell>> rows = adjustment.orders().stream().map(AdjustmentPage::order).toList();
    return Section.of(
        "As ordered, as found and as left",
        new Block.Grid(
            "What the order states against what was seen",
            List.of("What", "Ordered", FOUND, LEFT),
            rows));
  }

  private static List<Cell> order(Pair<AsOrdered> pair) {
    List<Cell> cells = new ArrayList<>();
    cells.add(Cell.text(pair.any().what()));
    cells.add(Cell.text(pair.any().ordered()));
    for (Optional<AsOrdered> side : List.of(pair.asFound(), pair.asLeft())) {
      cells.add(
          side.map(o -> new Cell(o.word().text(), o.found(), Cell.Kind.TEXT, Optional.of(o.word())))
              .orElseGet(() -> Cell.text("not in this run")));
    }
    return cells;
  }
}
