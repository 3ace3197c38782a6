package org.benchstroke.papers;

import java.util.List;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.unit.Practice;

/** An uncertainty budget in words, the same for page and terminal. Stateless. */
final class BudgetLines {
  /** How many of the columns, from the left, hold words. */
  static final int WORDS = 3;

  private BudgetLines() {}

  static List<String> headings(Budget budget) {
    return List.of(
        "Source", "Known as", "Shape, divisor", "u", "c", "|c|·u, " + budget.unit(), "ν", "Share");
  }

  static List<String> cells(Budget budget, Component c) {
    double combined = budget.combinedStandard();
    double share = combined > 0.0 ? Math.pow(c.contribution() / combined, 2) : 0.0;
    String unit = c.unit().isEmpty() ? budget.unit() : c.unit().equals("deg") ? "°" : c.unit();
    boolean bound = c.evaluation() == Component.Evaluation.TYPE_B_RECTANGULAR;
    return List.of(
        c.source(),
        (bound ? "± " : "s = ") + Numbers.significant(c.known(), 2) + " " + unit,
        shape(c),
        Numbers.significant(c.standard(), 2),
        Numbers.significant(c.sensitivity(), 3),
        Numbers.significant(c.contribution(), 2),
        Figures.freedom(c.degreesOfFreedom()),
        Numbers.fixed(100.0 * share, 0) + " %");
  }

  private static String shape(Component component) {
    return switch (component.evaluation()) {
      case TYPE_A -> "A, readings, ÷ 1";
      case TYPE_B_RECTANGULAR -> "B, rectangular, ÷ √3";
      case TYPE_B_NORMAL -> "B, normal, ÷ 1";
    };
  }

  /** "travel error at 50 % up, feedback: +0.03 %". */
  static String title(Measure measure) {
    return measure.kind().title()
        + measure.place().behind()
        + ", "
        + measure.truth().text()
        + ": "
        + Figures.valueWithUnit(measure);
  }

  /** What the lines come to, a sentence each. */
  static List<String> sums(Measure measure, Budget budget) {
    Expanded expanded = budget.expand(Figures.COVERAGE);
    String together =
        "Together u = "
            + Numbers.significant(expanded.standard(), 2)
            + " "
            + budget.unit()
            + ", effective degrees of freedom "
            + Figures.freedom(expanded.degreesOfFreedom())
            + ".";
    String factor =
        "k = "
            + Numbers.fixed(expanded.k(), 2)
            + " for "
            + Numbers.plain(expanded.coverage() * 100.0)
            + " %, "
            + basis(budget, expanded)
            + ".";
    return List.of(together, factor, "U = k·u = " + Figures.half(measure) + ".");
  }

  private static String basis(Budget budget, Expanded expanded) {
    return switch (budget.basis()) {
      case DRAWS ->
          "from draws of all inputs, as the measure is not a linear function of them (JCGM 101; to"
              + " the first order k = "
              + Numbers.fixed(budget.firstOrder(Figures.COVERAGE).k(), 2)
              + ")";
      case SHAPE ->
          "from the shape of the sum of these inputs (JCGM 100 G.4, which takes the sum as normal:"
              + " k = "
              + Numbers.fixed(budget.firstOrder(Figures.COVERAGE).k(), 2)
              + ")";
      case STUDENT ->
          "from Student's t for "
              + Figures.freedom(expanded.degreesOfFreedom())
              + " degrees of freedom";
      case NORMAL -> "from the normal distribution";
    };
  }

  /** The accuracy ratio and what to think of it; empty without one. */
  static String ratio(Judgement judgement, Practice practice) {
    if (judgement.accuracyRatio().isEmpty()) {
      return "";
    }
    double ratio = judgement.accuracyRatio().getAsDouble();
    String words =
        "Limit "
            + Figures.limit(judgement)
            + ": accuracy ratio, tolerance ÷ U, "
            + Figures.ratio(ratio);
    return words
        + switch (practice.grade(ratio)) {
          case GOOD -> ".";
          case LOW -> ", below " + Numbers.plain(practice.ratioWarn()) + ": low.";
          case REFUSED ->
              ", below " + Numbers.plain(practice.ratioRefuse()) + ": too low to judge well.";
        };
  }
}
