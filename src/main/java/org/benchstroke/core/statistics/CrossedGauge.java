package org.benchstroke.core.statistics;

import java.util.List;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.GaugeStudy.Method;
import org.benchstroke.core.statistics.GaugeStudy.Part;
import org.benchstroke.core.statistics.GaugeStudy.Row;

/** A study in which every operator measured every unit several times. Stateless. */
public final class CrossedGauge {
  /**
   * Where chance gives such an interaction more often than this, it is pooled with the
   * repeatability: common practice in gauge studies, no source. That a test before pooling wants a
   * level as high as 0.25, so that a real effect is hardly ever pooled, is Bancroft's (Biometrics
   * 20 (1964) 427–442, from memory).
   */
  private static final double POOLED_ABOVE = 0.25;

  private CrossedGauge() {}

  /**
   * By analysis of variance, all effects random (AIAG, Measurement Systems Analysis, 4th edition,
   * chapter III, from memory).
   *
   * @param readings by unit, operator and repeat; at least two of each, as many of each cell
   * @throws IllegalArgumentException if they are not balanced or a value is no number
   */
  public static StudyAnswer byVariance(double[][][] readings) {
    Readings data = new Readings(readings);
    int least = Math.min(data.rows(), Math.min(data.columns(), data.repeats()));
    if (least < 2) {
      return NoAnswer.tooFew(least, 2);
    }
    if (data.withoutScatter()) {
      return NoAnswer.allIdentical(data.rows() * data.columns() * data.repeats());
    }
    int units = data.rows() - 1;
    int operators = data.columns() - 1;
    Row error =
        Readings.row(
            Effect.REPEATABILITY,
            data.squaresWithinCells(),
            data.rows() * data.columns() * (data.repeats() - 1));
    Row interaction =
        Readings.row(Effect.INTERACTION, data.squaresOfInteraction(), units * operators, error);
    return interaction.p().orElseThrow() > POOLED_ABOVE
        ? pooled(data, error, interaction)
        : whole(data, error, interaction);
  }

  private static GaugeStudy whole(Readings data, Row error, Row interaction) {
    Row unit = Readings.row(Effect.UNIT, data.squaresOfRows(), data.rows() - 1, interaction);
    Row operator =
        Readings.row(Effect.OPERATOR, data.squaresOfColumns(), data.columns() - 1, interaction);
    int n = data.repeats();
    return new GaugeStudy(
        Method.CROSSED,
        List.of(unit, operator, interaction, error),
        List.of(
            Part.of(Effect.REPEATABILITY, error.mean()),
            Part.of(Effect.OPERATOR, (operator.mean() - interaction.mean()) / (data.rows() * n)),
            Part.of(Effect.INTERACTION, (interaction.mean() - error.mean()) / n),
            Part.of(Effect.UNIT, (unit.mean() - interaction.mean()) / (data.columns() * n))));
  }

  private static GaugeStudy pooled(Readings data, Row error, Row interaction) {
    Row both =
        Readings.row(
            Effect.REPEATABILITY,
            error.squares() + interaction.squares(),
            error.degrees() + interaction.degrees());
    Row unit = Readings.row(Effect.UNIT, data.squaresOfRows(), data.rows() - 1, both);
    Row operator = Readings.row(Effect.OPERATOR, data.squaresOfColumns(), data.columns() - 1, both);
    int n = data.repeats();
    return new GaugeStudy(
        Method.CROSSED_POOLED,
        List.of(unit, operator, interaction, both),
        List.of(
            Part.of(Effect.REPEATABILITY, both.mean()),
            Part.of(Effect.OPERATOR, (operator.mean() - both.mean()) / (data.rows() * n)),
            Part.of(Effect.UNIT, (unit.mean() - both.mean()) / (data.columns() * n))));
  }

  /**
   * By means and ranges (AIAG, Measurement Systems Analysis, 4th edition, chapter III, from
   * memory). It can't see an interaction.
   *
   * @param readings as above, up to ten units, operators and repeats
   * @throws IllegalArgumentException as above, or if there are more
   */
  public static StudyAnswer byRange(double[][][] readings) {
    Readings data = new Readings(readings);
    int least = Math.min(data.rows(), Math.min(data.columns(), data.repeats()));
    if (least < 2) {
      return NoAnswer.tooFew(least, 2);
    }
    if (data.withoutScatter()) {
      return NoAnswer.allIdentical(data.rows() * data.columns() * data.repeats());
    }
    double[] units = new double[data.rows()];
    double[] operators = new double[data.columns()];
    for (int i = 0; i < units.length; i++) {
      units[i] = data.rowMean(i);
    }
    for (int j = 0; j < operators.length; j++) {
      operators[j] = data.columnMean(j);
    }
    return fromRanges(
        new Ranges(data.meanRange(), Charts.range(operators), Charts.range(units)),
        new Size(units.length, operators.length, data.repeats()));
  }

  /**
   * What a sheet of means and ranges comes to.
   *
   * @param cells the mean range of the cells, above 0
   * @param operators the range of the operators' means
   * @param units the range of the units' means
   */
  record Ranges(double cells, double operators, double units) {}

  /**
   * How many there are.
   *
   * @param units 2 to 10
   * @param operators 2 to 10
   * @param repeats 2 to 10
   */
  record Size(int units, int operators, int repeats) {}

  static GaugeStudy fromRanges(Ranges ranges, Size size) {
    double repeatability = ranges.cells() / ChartConstants.d2(size.repeats());
    double operators = ranges.operators() / ofOneGroup(size.operators());
    double inMeans = repeatability * repeatability / (size.units() * size.repeats());
    double unit = ranges.units() / ofOneGroup(size.units());
    return new GaugeStudy(
        Method.AVERAGE_AND_RANGE,
        List.of(),
        List.of(
            Part.of(Effect.REPEATABILITY, repeatability * repeatability),
            Part.of(Effect.OPERATOR, operators * operators - inMeans),
            Part.of(Effect.UNIT, unit * unit)));
  }

  /**
   * d2* of one group: the root of the mean square of the range, √(d2² + d3²) (Duncan, Quality
   * Control and Industrial Statistics, from memory). One over it are K2 and K3 of the manual.
   */
  private static double ofOneGroup(int n) {
    return Math.hypot(ChartConstants.d2(n), ChartConstants.d3(n));
  }
}
