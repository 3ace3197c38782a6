package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JointRisk;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.LimitRisk;
import org.benchstroke.judge.Measure;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.unit.Practice;

/** What the decision rule risks, limit by limit, in a customer's words. Stateless. */
final class RiskSection {
  private static final List<String> HEADINGS =
      List.of(
          "Limit",
          "Widest U",
          "Ratio",
          "Guard band w",
          "Wrong pass, at most",
          "Wrong fail, at most",
          "Wrong passes, of all",
          "Missed passes, of all");

  private RiskSection() {}

  static Optional<Section> of(TwinAndCauses aids) {
    JudgedRun run = aids.run();
    List<LimitRisk> risks = aids.risks().each();
    if (risks.isEmpty()) {
      return Optional.empty();
    }
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Paragraph(
            "No measurement is exact, so a verdict can be wrong. A pass is wrong if the true value"
                + " is beyond the limit, a fail if it is within. The figures are the worst case: a"
                + " value that only just earned its result, at the widest uncertainty of its limit."
                + " Any other value risks less. A conditional result can be wrong in up to 50 % of"
                + " cases."));
    if (risks.stream().map(LimitRisk::widest).anyMatch(Figures::ofReadings)) {
      blocks.add(new Block.Paragraph(Figures.READINGS_MARK + " " + Figures.OF_READINGS));
    }
    warning(risks, run.unit().practice())
        .ifPresent(words -> blocks.add(new Block.Paragraph(words, true)));
    blocks.add(grid(risks));
    aids.risks().together().ifPresent(joint -> blocks.add(new Block.Paragraph(together(joint))));
    return Optional.of(new Section("How sure the verdict is", blocks));
  }

  /** What many limits risk together, in sentences. */
  static String together(JointRisk joint) {
    if (joint.values() == 1) {
      return "One value was compared with a limit.";
    }
    String bound =
        joint.allAtLeast() > 0.0
            ? atLeast(joint.allAtLeast()) + ", whatever their errors have in common (Bonferroni)"
            : atMost(joint.allAtMost()) + ", that of the least likely one";
    String all =
        "All limits together: "
            + joint.values()
            + " values were compared with "
            + (joint.limits() == 1 ? "one limit" : joint.limits() + " limits")
            + ". The probability that all of them truly conform is "
            + bound
            + "; with independent errors it is "
            + inWords(joint.allIfIndependent())
            + ".";
    return joint.passes() == 0 ? all : all + wrongPass(joint);
  }

  private static String wrongPass(JointRisk joint) {
    String worst =
        joint.wrongPassWorst().isPresent()
            ? " Had each only just passed, it could be up to "
                + shown(joint.wrongPassWorst().getAsDouble())
                + "."
            : "";
    return (joint.passes() == 1
            ? " The risk that the one pass"
            : " The risk that at least one of the " + joint.passes() + " passes")
        + " is wrong is "
        + atMost(joint.wrongPassAtMost())
        + "."
        + worst;
  }

  private static String atLeast(double p) {
    return p > 0.999 ? inWords(p) : "at least " + shown(p);
  }

  private static String atMost(double p) {
    return p < 0.001 ? inWords(p) : "at most " + shown(p);
  }

  private static String inWords(double p) {
    return shown(p).replace("> ", "more than ").replace("< ", "less than ");
  }

  private static String shown(double probability) {
    return Figures.probability(OptionalDouble.of(probability));
  }

  private static Block grid(List<LimitRisk> risks) {
    // nobody can say it of limits with one side: then there is no such column
    boolean all = risks.stream().anyMatch(risk -> risk.all().isPresent());
    int columns = all ? HEADINGS.size() : HEADINGS.size() - 2;
    String words =
        all
            ? "Last two columns: if "
                + Numbers.plain(100.0 * LimitRisk.ASSUMED_CONFORMING)
                + " % of all units conform, which is assumed and not known: how many of them all"
                + " pass wrongly, and how many good ones miss their pass."
            : "For each limit, at the widest U of a value compared with it.";
    return new Block.Grid(
        words,
        HEADINGS.subList(0, columns),
        risks.stream().map(risk -> cells(risk).subList(0, columns)).toList());
  }

  /** Which limits have an uncertainty that is wide for them. */
  private static Optional<String> warning(List<LimitRisk> risks, Practice practice) {
    List<String> low = new ArrayList<>();
    boolean refused = false;
    for (LimitRisk risk : risks) {
      Practice.RatioGrade grade = practice.grade(risk.ratio());
      refused |= grade == Practice.RatioGrade.REFUSED;
      if (grade != Practice.RatioGrade.GOOD) {
        low.add(risk.limit().measure().title() + " (" + Figures.ratio(risk.ratio()) + ")");
      }
    }
    if (low.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        "Accuracy ratio, tolerance ÷ U, below "
            + Numbers.plain(practice.ratioWarn())
            + ": "
            + String.join(", ", low)
            + ". Good units will miss their pass there; better instruments would be wise."
            + (refused
                ? " Below "
                    + Numbers.plain(practice.ratioRefuse())
                    + " it is too low to judge well."
                : ""));
  }

  private static List<Cell> cells(LimitRisk risk) {
    Measure measure = risk.widest().measure();
    String place = measure.place().behind().strip();
    String unit = " " + measure.kind().unit();
    String guard = risk.guard() > 0.0 ? Figures.half(risk.guard()) + unit : "none";
    return List.of(
        Cell.noted(measure.kind().title(), risk.limit().text()),
        Cell.number(
            Figures.half(measure)
                + (Figures.ofReadings(risk.widest()) ? " " + Figures.READINGS_MARK : ""),
            place),
        Cell.number(Figures.ratio(risk.ratio())),
        Cell.number(guard),
        Cell.number(
            risk.falseAccept().isPresent()
                ? Figures.probability(risk.falseAccept())
                : "nothing can pass"),
        Cell.number(Figures.probability(OptionalDouble.of(risk.falseReject()))),
        Cell.number(
            risk.all()
                .map(all -> Figures.probability(OptionalDouble.of(all.consumer())))
                .orElse(Figures.NONE)),
        Cell.number(
            risk.all()
                .map(all -> Figures.probability(OptionalDouble.of(all.producer())))
                .orElse(Figures.NONE)));
  }
}
