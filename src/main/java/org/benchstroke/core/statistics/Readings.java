package org.benchstroke.core.statistics;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.stat.StatUtils;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.GaugeStudy.Row;

/** Balanced readings of a study by two factors: as many of each cell. Not changed once made. */
final class Readings {
  private final double[][][] cells;

  /**
   * Checks that they are balanced.
   *
   * @param cells the readings, the last index being the repeat
   * @throws IllegalArgumentException if they are not, or a value is no number
   */
  Readings(double[][][] cells) {
    this.cells = cells;
    for (double[][] row : cells) {
      alike("rows have as many cells", columns(), row.length);
      for (double[] cell : row) {
        Scale.finite(cell);
        alike("each cell is read as often", repeats(), cell.length);
      }
    }
  }

  private static void alike(String what, int first, int other) {
    if (first != other) {
      throw new IllegalArgumentException(what + ", not " + first + " and " + other);
    }
  }

  int rows() {
    return cells.length;
  }

  int columns() {
    return rows() == 0 ? 0 : cells[0].length;
  }

  int repeats() {
    return columns() == 0 ? 0 : cells[0][0].length;
  }

  double mean() {
    return StatUtils.mean(all(cells));
  }

  double rowMean(int row) {
    return StatUtils.mean(Arrays.stream(cells[row]).flatMapToDouble(Arrays::stream).toArray());
  }

  double columnMean(int column) {
    return StatUtils.mean(
        Arrays.stream(cells).flatMapToDouble(row -> Arrays.stream(row[column])).toArray());
  }

  double cellMean(int row, int column) {
    return StatUtils.mean(cells[row][column]);
  }

  /** Whether no cell has any scatter: then there is nothing to compare with. */
  boolean withoutScatter() {
    return Stream.of(cells).flatMap(Arrays::stream).allMatch(cell -> Charts.range(cell) == 0.0);
  }

  /** The mean range of the cells. */
  double meanRange() {
    return Stream.of(cells)
        .flatMap(Arrays::stream)
        .mapToDouble(Charts::range)
        .average()
        .orElseThrow();
  }

  double squaresOfRows() {
    double grand = mean();
    double sum = 0.0;
    for (int i = 0; i < rows(); i++) {
      sum += square(rowMean(i) - grand);
    }
    return sum * columns() * repeats();
  }

  double squaresOfColumns() {
    double grand = mean();
    double sum = 0.0;
    for (int j = 0; j < columns(); j++) {
      sum += square(columnMean(j) - grand);
    }
    return sum * rows() * repeats();
  }

  double squaresOfInteraction() {
    double grand = mean();
    double sum = 0.0;
    for (int i = 0; i < rows(); i++) {
      for (int j = 0; j < columns(); j++) {
        sum += square(cellMean(i, j) - rowMean(i) - columnMean(j) + grand);
      }
    }
    return sum * repeats();
  }

  /** Of the columns of each row about the row's own mean. */
  double squaresWithinRows() {
    double sum = 0.0;
    for (int i = 0; i < rows(); i++) {
      for (int j = 0; j < columns(); j++) {
        sum += square(cellMean(i, j) - rowMean(i));
      }
    }
    return sum * repeats();
  }

  double squaresWithinCells() {
    double sum = 0.0;
    for (double[][] row : cells) {
      for (double[] cell : row) {
        double mean = StatUtils.mean(cell);
        sum += Arrays.stream(cell).map(x -> square(x - mean)).sum();
      }
    }
    return sum;
  }

  private static double[] all(double[][][] cells) {
    return Stream.of(cells).flatMap(Stream::of).flatMapToDouble(Arrays::stream).toArray();
  }

  private static double square(double x) {
    return x * x;
  }

  /** A line without a comparison. */
  static Row row(Effect effect, double squares, int degrees) {
    return new Row(effect, squares, degrees, OptionalDouble.empty(), OptionalDouble.empty());
  }

  /** A line compared with another one. */
  static Row row(Effect effect, double squares, int degrees, Row with) {
    double f = squares / degrees / with.mean();
    return new Row(
        effect,
        squares,
        degrees,
        OptionalDouble.of(f),
        OptionalDouble.of(beyond(f, degrees, with.degrees())));
  }

  private static double beyond(double f, int degrees, int ofOther) {
    // the lower tail of its reciprocal: one less a probability near one would lose its digits
    return new FDistribution(null, ofOther, degrees).cumulativeProbability(1.0 / f);
  }
}
