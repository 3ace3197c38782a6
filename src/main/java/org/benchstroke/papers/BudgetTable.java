package org.benchstroke.papers;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;

/** The uncertainty budget of each measure as plain text. Stateless. */
public final class BudgetTable {
  static final String ONE_BOX =
      "Source and readback are one box: their errors are correlated and hidden.";

  private BudgetTable() {}

  /** All budgets in the order of the measures; lines end in a line feed. */
  public static String text(JudgedRun run) {
    StringBuilder out = new StringBuilder();
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      Optional<Budget> budget = measure.budget();
      budget.ifPresent(b -> one(out, run, judgement, b));
    }
    return out.toString();
  }

  private static void one(StringBuilder out, JudgedRun run, Judgement judgement, Budget budget) {
    Measure measure = judgement.measure();
    out.append('\n').append(BudgetLines.title(measure)).append('\n');
    row(out, BudgetLines.headings(budget));
    budget.components().forEach(c -> row(out, BudgetLines.cells(budget, c)));
    BudgetLines.sums(measure, budget).forEach(words -> sentence(out, words));
    sentence(out, BudgetLines.ratio(judgement, run.unit().practice()));
    sentence(out, run.bench().sourceReadsItself() ? ONE_BOX : "");
  }

  private static void sentence(StringBuilder out, String words) {
    if (!words.isEmpty()) {
      out.append("  ").append(words).append('\n');
    }
  }

  private static void row(StringBuilder out, List<String> cells) {
    out.append(
        String.format(Locale.ROOT, "  %-58s %-12s %-20s %9s %9s %9s %7s %6s\n", cells.toArray()));
  }
}
