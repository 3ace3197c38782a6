package org.benchstroke.judge;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
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
  private static final String OF_THE_STEM = " of the stem";

  /** Its name says so, or it compares the two. */
  private static final Set<MeasureKind> SPEAKS_OF_THE_STEM =
      EnumSet.of(MeasureKind.SEAT_LAG, MeasureKind.FEEDBACK_ERROR);

  /** How it would be judged if it were that much more; empty without a limit. */
  public Optional<Word> word(UnitType unit, double more) {
    Optional<Double> shifted = value.map(v -> v + more);
    Measure other = new Measure(kind, place, truth, shifted, budget, method, note, scope);
    return RunJudge.judgement(unit, other, unit.limit(kind)).word();
  }

  /**
   * Its title, which says "of the stem" where that is what was measured: "linearity of the stem,
   * independent".
   */
  public String title() {
    String title = kind.title();
    if (truth != Truth.STEM || SPEAKS_OF_THE_STEM.contains(kind)) {
      return title;
    }
    int comma = title.indexOf(',');
    return comma < 0
        ? title + OF_THE_STEM
        : title.substring(0, comma) + OF_THE_STEM + title.substring(comma);
  }

  /** The same, which speaks of this. */
  public Measure of(Scope spoken) {
    return new Measure(kind, place, truth, value, budget, method, note, spoken);
  }
}
