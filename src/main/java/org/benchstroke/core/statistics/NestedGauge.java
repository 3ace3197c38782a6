package org.benchstroke.core.statistics;

import java.util.List;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.GaugeStudy.Method;
import org.benchstroke.core.statistics.GaugeStudy.Part;
import org.benchstroke.core.statistics.GaugeStudy.Row;

/**
 * A study in which each operator measured units of their own: for units that can't be sent round,
 * or are not the same afterwards. Where a run uses a unit up, its repeats are other units that are
 * taken for alike, and what these differ by counts as repeatability. Stateless.
 */
public final class NestedGauge {
  private NestedGauge() {}

  /**
   * By analysis of variance, all effects random (JCGM 100:2008 H.5 for one stage; the second stage
   * as in Montgomery, Design and Analysis of Experiments, chapter on nested designs, from memory).
   *
   * @param readings by operator, unit and repeat; at least two of each, as many of each cell
   * @throws IllegalArgumentException if they are not balanced or a value is no number
   */
  public static StudyAnswer byVariance(double[][][] readings) {
    Readings data = new Readings(readings);
    int least = Math.min(data.rows(), Math.min(data.columns(), data.repeats()));
    if (least < 2) {
      return NoAnswer.tooFew(least, 2);
    }
    int operators = data.rows();
    int units = data.columns();
    int n = data.repeats();
    if (data.withoutScatter()) {
      return NoAnswer.allIdentical(operators * units * n);
    }
    Row error =
        Readings.row(Effect.REPEATABILITY, data.squaresWithinCells(), operators * units * (n - 1));
    Row unit = Readings.row(Effect.UNIT, data.squaresWithinRows(), operators * (units - 1), error);
    Row operator = Readings.row(Effect.OPERATOR, data.squaresOfRows(), operators - 1, unit);
    return new GaugeStudy(
        Method.NESTED,
        List.of(operator, unit, error),
        List.of(
            Part.of(Effect.REPEATABILITY, error.mean()),
            Part.of(Effect.OPERATOR, (operator.mean() - unit.mean()) / (units * n)),
            Part.of(Effect.UNIT, (unit.mean() - error.mean()) / n)));
  }

  /**
   * Of one bench alone: days or units, each measured several times (JCGM 100:2008 H.5). The
   * component {@link Effect#UNIT} is what differs from one to the next.
   *
   * @param readings by unit and repeat; at least two of each
   * @throws IllegalArgumentException as above
   */
  public static StudyAnswer ofOneOperator(double[][] readings) {
    Readings data = new Readings(new double[][][] {readings});
    int least = Math.min(data.columns(), data.repeats());
    if (least < 2) {
      return NoAnswer.tooFew(least, 2);
    }
    int units = data.columns();
    int n = data.repeats();
    if (data.withoutScatter()) {
      return NoAnswer.allIdentical(units * n);
    }
    Row error = Readings.row(Effect.REPEATABILITY, data.squaresWithinCells(), units * (n - 1));
    Row unit = Readings.row(Effect.UNIT, data.squaresWithinRows(), units - 1, error);
    return new GaugeStudy(
        Method.NESTED,
        List.of(unit, error),
        List.of(
            Part.of(Effect.REPEATABILITY, error.mean()),
            Part.of(Effect.UNIT, (unit.mean() - error.mean()) / n)));
  }
}
