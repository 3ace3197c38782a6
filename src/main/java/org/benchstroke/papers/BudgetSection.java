package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.papers.Block.Cell;

/**
 * How the uncertainty of each judged value was worked out. The widest of each kind is open, so that
 * paper shows it; the line of each other one gives its sum. Stateless.
 */
final class BudgetSection {
  private BudgetSection() {}

  /** Measures of the same sort: their budgets have the same lines. */
  private record Sort(String title, Truth truth, boolean limited) {}

  static Optional<Section> of(JudgedRun run) {
    Map<Sort, List<Judgement>> sorts = new LinkedHashMap<>();
    run.judgements().stream()
        .filter(j -> j.measure().value().isPresent() && j.measure().budget().isPresent())
        .forEach(j -> sorts.computeIfAbsent(sort(j), sort -> new ArrayList<>()).add(j));
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Paragraph(
            "u is a standard uncertainty in the unit of its source, c what the result changes by"
                + " per unit of it, |c|·u what it adds, ν its degrees of freedom, share its part of"
                + " the variance. Of each judged kind the widest is spelled out; the others,"
                + " and the widest of each kind without a limit, open on request."));
    if (run.bench().sourceReadsItself()) {
      blocks.add(new Block.Paragraph(BudgetTable.ONE_BOX, true));
    }
    sorts.forEach((sort, judgements) -> add(blocks, run, sort, judgements));
    return sorts.isEmpty()
        ? Optional.empty()
        : Optional.of(new Section("How the uncertainty was worked out", blocks));
  }

  private static Sort sort(Judgement judgement) {
    Measure measure = judgement.measure();
    return new Sort(measure.kind().title(), measure.truth(), judgement.limit().isPresent());
  }

  private static void add(
      List<Block> blocks, JudgedRun run, Sort sort, List<Judgement> judgements) {
    Judgement widest = judgements.get(0);
    for (Judgement each : judgements) {
      widest = half(each) > half(widest) ? each : widest;
    }
    for (Judgement each : judgements) {
      boolean first = each.equals(widest);
      if (first || sort.limited()) {
        blocks.add(details(run, each, first && sort.limited()));
      }
    }
  }

  private static double half(Judgement judgement) {
    return judgement.measure().budget().orElseThrow().expand(Figures.COVERAGE).half();
  }

  private static Block details(JudgedRun run, Judgement judgement, boolean open) {
    Measure measure = judgement.measure();
    Budget budget = measure.budget().orElseThrow();
    String ratio = BudgetLines.ratio(judgement, run.unit().practice());
    List<List<Cell>> rows =
        budget.components().stream().map(c -> cells(BudgetLines.cells(budget, c))).toList();
    Block.Grid grid =
        new Block.Grid(
            "Budget of the " + BudgetLines.title(measure), BudgetLines.headings(budget), rows);
    String closing =
        String.join(" ", BudgetLines.sums(measure, budget)) + (ratio.isEmpty() ? "" : " " + ratio);
    return new Block.Details(summary(measure, budget), open, grid, closing);
  }

  private static String summary(Measure measure, Budget budget) {
    Expanded expanded = budget.expand(Figures.COVERAGE);
    return BudgetLines.title(measure)
        + " ± "
        + Figures.half(measure)
        + " (u = "
        + Numbers.significant(expanded.standard(), 2)
        + ", ν "
        + Figures.freedom(expanded.degreesOfFreedom())
        + ", k = "
        + Figures.coverageFactor(measure)
        + ")";
  }

  private static List<Cell> cells(List<String> texts) {
    List<Cell> cells = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      cells.add(i < BudgetLines.WORDS ? Cell.text(texts.get(i)) : Cell.number(texts.get(i)));
    }
    return cells;
  }
}
