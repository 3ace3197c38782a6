package org.benchstroke.papers;

import java.util.List;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Expanded;
import org.benchstroke.judge.JointRisk;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.LimitRisk;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Risk;
import org.benchstroke.judge.Word;
import org.benchstroke.unit.Limit;

/** Judged measures and what is risked with them, for other programs. Stateless. */
final class MeasureJson {
  private MeasureJson() {}

  static Fields measure(Judgement judgement) {
    Measure measure = judgement.measure();
    Fields fields =
        new Fields()
            .with("kind", measure.kind().key())
            .with("title", measure.kind().title())
            .with("place", measure.place().words())
            .with("place_id", measure.place().id())
            .with("setpoint_pct", measure.place().setpointPercent())
            .with("truth", measure.truth().text())
            .with("value", measure.value())
            .with("unit", measure.kind().unit());
    measure.budget().ifPresent(budget -> fields.with(uncertainty(judgement, budget)));
    judgement.limit().ifPresent(limit -> fields.with(limit(limit)));
    return fields
        .with("word", judgement.word().map(Word::text))
        .with("probability", judgement.probability())
        .with("speaks_of", measure.scope().key())
        .with("method", measure.method())
        .with("note", measure.note())
        .with("budget", measure.budget().map(MeasureJson::components));
  }

  private static Fields uncertainty(Judgement judgement, Budget budget) {
    Expanded expanded = budget.expand(Figures.COVERAGE);
    return new Fields()
        .with("u", expanded.half())
        .with("k", expanded.k())
        .with("nu", expanded.degreesOfFreedom())
        .with("coverage", expanded.coverage())
        .with("k_basis", basis(budget))
        .with("accuracy_ratio", judgement.accuracyRatio());
  }

  private static String basis(Budget budget) {
    return switch (budget.basis()) {
      case DRAWS -> "draws";
      case SHAPE -> "shape of the sum";
      case STUDENT -> "Student's t";
      case NORMAL -> "normal";
    };
  }

  private static List<Fields> components(Budget budget) {
    return budget.components().stream().map(c -> component(budget, c)).toList();
  }

  private static Fields component(Budget budget, Component c) {
    return new Fields()
        .with("source", c.source())
        .with("evaluation", evaluation(c))
        .with("known", c.known())
        .with("unit", c.unit().isEmpty() ? budget.unit() : c.unit())
        .with("divisor", c.divisor())
        .with("standard", c.standard())
        .with("sensitivity", c.sensitivity())
        .with("contribution", c.contribution())
        .with("nu", c.degreesOfFreedom());
  }

  private static String evaluation(Component component) {
    return switch (component.evaluation()) {
      case TYPE_A -> "A";
      case TYPE_B_RECTANGULAR -> "B rectangular";
      case TYPE_B_NORMAL -> "B normal";
    };
  }

  private static Fields limit(Limit limit) {
    return new Fields()
        .with("limit_low", limit.low())
        .with("limit_high", limit.high())
        .with("guard_factor", limit.rule().guardFactor());
  }

  static Fields risk(LimitRisk risk) {
    Fields fields =
        new Fields()
            .with("kind", risk.limit().measure().key())
            .with(limit(risk.limit()))
            .with("widest_at", risk.widest().measure().place().words())
            .with("speaks_of", risk.widest().measure().scope().key())
            .with("u", risk.half())
            .with("accuracy_ratio", risk.ratio())
            .with("guard_band", risk.guard())
            .with("false_accept", risk.falseAccept())
            .with("false_reject", risk.falseReject());
    risk.all().ifPresent(all -> fields.with(ofAll(all)));
    return fields;
  }

  private static Fields ofAll(Risk all) {
    return new Fields()
        .with("assumed_conforming", LimitRisk.ASSUMED_CONFORMING)
        .with("accepted_wrongly", all.consumer())
        .with("not_accepted_wrongly", all.producer());
  }

  static Fields together(JointRisk joint) {
    return new Fields()
        .with("values", joint.values())
        .with("limits", joint.limits())
        .with("passes", joint.passes())
        .with("all_conform_at_least", joint.allAtLeast())
        .with("all_conform_at_most", joint.allAtMost())
        .with("all_conform_if_independent", joint.allIfIndependent())
        .with("wrong_pass_at_most", joint.wrongPassAtMost())
        .with("wrong_pass_if_independent", joint.wrongPassIfIndependent())
        .with("wrong_pass_worst", joint.wrongPassWorst());
  }
}
