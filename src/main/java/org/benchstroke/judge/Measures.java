package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.analysis.Estimate;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.core.uncertainty.Component;
import org.benchstroke.unit.MeasureKind;

/** Makes measures, with a value or with the reason for none. Stateless. */
public final class Measures {
  private Measures() {}

  /**
   * Of what the unit did when it was read: its scatter from one time to the next is not in it,
   * unless {@link Measure#of} says so.
   */
  public static Measure value(
      MeasureKind kind,
      Location place,
      Truth truth,
      double value,
      List<Component> components,
      String method,
      String note) {
    Budget budget = new Budget(kind.unit(), components);
    return new Measure(
        kind, place, truth, Optional.of(value), Optional.of(budget), method, note, Scope.READINGS);
  }

  /** The parts of an estimate as inputs of a budget, in the measure's unit. */
  public static List<Component> components(Estimate estimate) {
    List<Component> components = new ArrayList<>();
    for (Estimate.Part part : estimate.parts()) {
      components.add(
          part.spreading() == Estimate.Spreading.RECTANGULAR
              ? Component.rectangular(part.source(), part.standard() * Math.sqrt(3.0), 1.0)
              : new Component(
                  part.source(),
                  Component.Evaluation.TYPE_B_NORMAL,
                  part.standard(),
                  1.0,
                  Double.POSITIVE_INFINITY));
    }
    return components;
  }

  /**
   * A value that is no straight function of its inputs: U is what draws of their errors say, or a
   * bound that holds.
   */
  public static Measure drawn(Measure measure, double half) {
    Budget first = measure.budget().orElseThrow();
    Budget budget = new Budget(first.unit(), first.components(), OptionalDouble.of(half));
    return new Measure(
        measure.kind(),
        measure.place(),
        measure.truth(),
        measure.value(),
        Optional.of(budget),
        measure.method(),
        measure.note(),
        measure.scope());
  }

  public static Measure none(
      MeasureKind kind, Location place, Truth truth, String method, String reason) {
    return new Measure(
        kind, place, truth, Optional.empty(), Optional.empty(), method, reason, Scope.READINGS);
  }
}
