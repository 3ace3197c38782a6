package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What many limits risk together. Each value that was compared with a limit has its own probability
 * P that the true value conforms (JCGM 106:2012 clause 7); together they are less sure than any one
 * of them. How their errors go together nobody knows, for they share instruments: so the bounds are
 * those that hold whatever they share (Boole 1854 and Bonferroni 1936; Fréchet 1935). For errors
 * that share nothing, probabilities multiply (Kuselman and others, IUPAC/CITAC Guide 2021 on
 * conformity of objects with several components, from memory). Immutable.
 *
 * @param values how many values were compared with a limit
 * @param limits how many limits they were compared with
 * @param allAtLeast the probability that all true values conform is not less: 1 − Σ(1 − P), or 0
 * @param allAtMost it is not more: the least P
 * @param allIfIndependent what it is if no errors are shared: ΠP
 * @param passes how many of the values passed
 * @param wrongPassAtMost the risk that at least one of those passes is wrong is not more: Σ(1 − P)
 *     over them, or 1
 * @param wrongPassIfIndependent what it is if no errors are shared: 1 − ΠP
 * @param wrongPassWorst the same bound had each of them only just passed, at the widest U of its
 *     limit; empty if a limit leaves nothing to pass in
 */
public record JointRisk(
    int values,
    int limits,
    double allAtLeast,
    double allAtMost,
    double allIfIndependent,
    int passes,
    double wrongPassAtMost,
    double wrongPassIfIndependent,
    OptionalDouble wrongPassWorst) {

  /** Of all values that were compared with a limit; empty if none was. */
  public static Optional<JointRisk> of(List<Judgement> judgements) {
    return LimitRisks.of(judgements).together();
  }

  /**
   * Of all values that were compared with a limit.
   *
   * @param risks what each of their limits risks
   */
  static Optional<JointRisk> of(List<Judgement> judgements, List<LimitRisk> risks) {
    List<Judgement> judged = judgements.stream().filter(j -> j.probability().isPresent()).toList();
    if (judged.isEmpty()) {
      return Optional.empty();
    }
    List<Judgement> passed =
        judged.stream().filter(j -> j.word().equals(Optional.of(Word.PASS))).toList();
    long limits = judged.stream().flatMap(j -> j.limit().stream()).distinct().count();
    return Optional.of(
        new JointRisk(
            judged.size(),
            (int) limits,
            Math.max(0.0, 1.0 - missing(judged)),
            judged.stream().mapToDouble(JointRisk::conforms).min().orElseThrow(),
            product(judged),
            passed.size(),
            Math.min(1.0, missing(passed)),
            1.0 - product(passed),
            worst(passed, risks)));
  }

  private static double conforms(Judgement judgement) {
    return judgement.probability().orElseThrow();
  }

  private static double missing(List<Judgement> judgements) {
    return judgements.stream().mapToDouble(j -> 1.0 - conforms(j)).sum();
  }

  private static double product(List<Judgement> judgements) {
    return judgements.stream().mapToDouble(JointRisk::conforms).reduce(1.0, (a, b) -> a * b);
  }

  private static OptionalDouble worst(List<Judgement> passed, List<LimitRisk> risks) {
    double sum = 0.0;
    for (Judgement judgement : passed) {
      for (LimitRisk risk : risks) {
        if (judgement.limit().equals(Optional.of(risk.limit()))) {
          if (risk.falseAccept().isEmpty()) {
            return OptionalDouble.empty();
          }
          sum += risk.falseAccept().getAsDouble();
        }
      }
    }
    return OptionalDouble.of(Math.min(1.0, sum));
  }
}
