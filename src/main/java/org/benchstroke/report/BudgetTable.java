package org.benchstroke.report;

import java.util.Locale;
import java.util.Optional;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.uncertainty.Budget;
import org.benchstroke.uncertainty.Component;
import org.benchstroke.uncertainty.Expanded;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Measure;

/** The uncertainty budget of each measure as plain text. Stateless. */
public final class BudgetTable {
  private BudgetTable() {}

  /** All budgets in the order of the measures; lines end in a line feed. */
  public static String text(JudgedRun run) {
    StringBuilder out = new StringBuilder();
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      Optional<Budget> budget = measure.budget();
      budget.ifPresent(b -> one(out, measure, b, run.bench().sourceReadsItself()));
    }
    return out.toString();
  }

  private static void one(StringBuilder out, Measure measure, Budget budget, boolean oneBox) {
    String place = measure.place().isEmpty() ? "" : ", " + measure.place();
    out.append('\n')
        .append(measure.kind().title())
        .append(place)
        .append(", ")
        .append(measure.truth().text())
        .append(": ")
        .append(Figures.valueWithUnit(measure))
        .append('\n');
    String of = "c·u, " + budget.unit();
    row(out, "source", "evaluation", "u", "c", of, "ν", "share");
    double combined = budget.combinedStandard();
    for (Component c : budget.components()) {
      double part = combined > 0.0 ? Math.pow(c.contribution() / combined, 2) : 0.0;
      row(
          out,
          c.source(),
          evaluation(c),
          Numbers.significant(c.standard(), 2),
          Numbers.significant(c.sensitivity(), 3),
          Numbers.significant(c.contribution(), 2),
          Figures.freedom(c.degreesOfFreedom()),
          Numbers.fixed(100.0 * part, 0) + " %");
    }
    Expanded shaped = budget.expand();
    Expanded first = budget.firstOrder(Budget.COVERAGE);
    out.append("  U = ").append(figure(shaped)).append(" by the shape of the inputs; ");
    out.append(figure(first)).append(" if they were normal (JCGM 100)\n");
    if (oneBox) {
      out.append("  source and readback are one box: their errors are correlated and hidden\n");
    }
  }

  private static String figure(Expanded e) {
    return Numbers.significant(e.half(), 2) + " (k = " + Numbers.fixed(e.k(), 2) + ")";
  }

  private static String evaluation(Component component) {
    return switch (component.evaluation()) {
      case TYPE_A -> "A, repeated";
      case TYPE_B_RECTANGULAR -> "B, rectangular";
      case TYPE_B_NORMAL -> "B, normal";
    };
  }

  private static void row(StringBuilder out, Object... cells) {
    out.append(String.format(Locale.ROOT, "  %-58s %-14s %9s %9s %9s %7s %6s\n", cells));
  }
}
