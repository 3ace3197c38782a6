package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Spread;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.core.uncertainty.Tie;
import org.benchstroke.unit.UnitType;

/**
 * How a unit's place of rest scatters from one approach to the next of the same way, as far as
 * anybody knows. It is taken to be the same at all places. Immutable.
 *
 * @param one of a single approach, %; empty where it was neither measured nor stated
 * @param measured whether it was measured in this run: it then holds the noise of the readings, too
 */
public record Scatter(Optional<Component> one, boolean measured) {
  /** Neither measured nor stated. */
  static final Scatter UNKNOWN = new Scatter(Optional.empty(), false);

  private static final String ID = "scatter of the place of rest, ";

  /** A repeatability limit r = 2.8 s: two approaches differ by less in 95 of 100 cases. */
  private static final double REPEATABILITY_LIMIT = 2.8;

  /**
   * Measured where the record holds several approaches to one place the same way: their deviations,
   * pooled over all places (JCGM 100:2008 4.2.4), for few at one place often agree by chance. Else
   * as the unit type states it (ISO 5725-6, r = 2.8 s, from memory).
   *
   * @param groups the errors, %, of such approaches by one truth
   */
  static Scatter of(List<List<Double>> groups, Truth truth, UnitType unit) {
    Optional<Component> found =
        pooled("scatter from approach to approach, pooled", groups, truth.text());
    return found.isPresent()
        ? new Scatter(found, true)
        : unit.repeatabilityPercent().isEmpty()
            ? UNKNOWN
            : stated(unit.repeatabilityPercent().getAsDouble(), truth);
  }

  private static Scatter stated(double limit, Truth truth) {
    Component one =
        new Component(
            "scatter from approach to approach, as the unit type states it",
            Component.Evaluation.TYPE_B_NORMAL,
            limit / REPEATABILITY_LIMIT,
            1.0,
            Double.POSITIVE_INFINITY);
    return new Scatter(
        Optional.of(one.tied(Tie.Kind.ONE_ESTIMATE, ID + truth.text() + ", stated")), false);
  }

  /**
   * The pooled deviation of groups of values that should be alike.
   *
   * @param what ties its uses in one budget
   * @return empty if no group has two
   */
  public static Optional<Component> pooled(String source, List<List<Double>> groups, String what) {
    double squares = 0.0;
    double degrees = 0.0;
    for (List<Double> group : groups) {
      if (group.size() > 1) {
        Spread spread = Spread.of(group);
        squares += (spread.count() - 1.0) * spread.deviation() * spread.deviation();
        degrees += spread.count() - 1.0;
      }
    }
    return degrees > 0.0
        ? Optional.of(
            Component.typeA(source, Math.sqrt(squares / degrees), degrees)
                .tied(Tie.Kind.ONE_ESTIMATE, ID + what))
        : Optional.empty();
  }

  /** What U speaks of where it is in the budget, and where it is not. */
  Scope scope() {
    return one.isPresent() ? Scope.UNIT : Scope.READINGS;
  }
}
