package org.benchstroke.judge;

import java.util.Optional;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitType;

/**
 * One measured value with its uncertainty.
 *
 * @param kind what it is
 * @param place where
 * @param truth by what the position was known
 * @param value the value in the kind's unit; empty if there is none
 * @param budget its uncertainty; empty exactly if there is no value
 * @param method id and version of the method: "travel-error/2"
 * @param note why there is no value, or what a reader must know; may be empty
 * @param scope what it speaks of
 */
public record Measure(
    MeasureKind kind,
    Location place,
    Truth truth,
    Optional<Double> value,
    Optional<Budget> budget,
    String method,
    String note,
    Scope scope) {
  /** How it would be judged if it were that much more; empty without a limit. */
  public Optional<Word> word(UnitType unit, double more) {
    Optional<Double> shifted = value.map(v -> v + more);
    Measure other = new Measure(kind, place, truth, shifted, budget, method, note, scope);
    return RunJudge.judgement(unit, other, unit.limit(kind)).word();
  }

  /** The same, which speaks of this. */
  public Measure of(Scope spoken) {
    return new Measure(kind, place, truth, value, budget, method, note, spoken);
  }
}
