package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.ErrorDistribution;
import org.benchstroke.unit.Limit;

/**
 * What the decision rule of a limit risks, at the widest uncertainty with which a value was held
 * against it: all others risk less. Immutable.
 *
 * @param limit the limit with its rule
 * @param widest the judged value of the widest uncertainty
 * @param half its U, in the unit of the measure
 * @param ratio its accuracy ratio, tolerance ÷ U
 * @param guard the width w of the guard band
 * @param falseAccept the probability that a value right at the acceptance limit, the worst pass, is
 *     beyond the limit in truth, with nothing else known of the unit (JCGM 106:2012 9.3.2, from
 *     memory); empty if the guard band leaves nothing to pass in
 * @param falseReject the probability that a value right beyond the guard band, the mildest fail, is
 *     within the limit in truth
 * @param all the risks among all units, if {@link #ASSUMED_CONFORMING} of them conform and their
 *     values are normal about the middle; only for a limit with two sides
 */
public record LimitRisk(
    Limit limit,
    Judgement widest,
    double half,
    double ratio,
    double guard,
    OptionalDouble falseAccept,
    double falseReject,
    Optional<Risk> all) {
  /** Taken for the share of conforming units where nobody knows it; our choice. */
  public static final double ASSUMED_CONFORMING = 0.95;

  /** One for each limit that a value was compared with, in the order of the judgements. */
  public static List<LimitRisk> of(List<Judgement> judgements) {
    List<LimitRisk> risks = new ArrayList<>();
    for (Limit limit : limits(judgements)) {
      Judgement widest = null;
      double least = Double.POSITIVE_INFINITY;
      for (Judgement j : judgements) {
        double ratio = j.accuracyRatio().orElse(Double.POSITIVE_INFINITY);
        if (j.limit().equals(Optional.of(limit)) && ratio < least) {
          widest = j;
          least = ratio;
        }
      }
      if (widest != null) {
        risks.add(of(limit, widest, least));
      }
    }
    return risks;
  }

  private static List<Limit> limits(List<Judgement> judgements) {
    return judgements.stream().flatMap(j -> j.limit().stream()).distinct().toList();
  }

  private static LimitRisk of(Limit limit, Judgement widest, double ratio) {
    Budget budget = widest.measure().budget().orElseThrow();
    double half = budget.expand().half();
    ErrorDistribution errors = budget.errors();
    double guard = limit.rule().guard(half);
    boolean both = limit.low().isPresent() && limit.high().isPresent();
    double tolerance = ratio * half;
    double width = both ? 2.0 * tolerance : Double.POSITIVE_INFINITY;
    OptionalDouble falseAccept =
        guard < tolerance
            ? OptionalDouble.of(errors.above(guard) + errors.above(width - guard))
            : OptionalDouble.empty();
    double falseReject = errors.above(guard) - errors.above(guard + width);
    Optional<Risk> all =
        both
            ? Optional.of(
                Risk.of(
                    errors.in(tolerance), guard / tolerance, Risk.spreadFor(ASSUMED_CONFORMING)))
            : Optional.empty();
    return new LimitRisk(limit, widest, half, ratio, guard, falseAccept, falseReject, all);
  }
}
