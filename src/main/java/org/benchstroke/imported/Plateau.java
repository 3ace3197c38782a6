package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * A stretch of rows in which the setpoint stands still.
 *
 * @param percent the mean setpoint, % of travel
 * @param milliamps the same as a current, mA
 * @param rows its rows, in order
 */
record Plateau(double percent, double milliamps, List<TraceRows.Row> rows) {
  Plateau {
    rows = List.copyOf(rows);
  }

  double fromSeconds() {
    return rows.get(0).seconds();
  }

  double toSeconds() {
    return rows.get(rows.size() - 1).seconds();
  }

  /**
   * Parts a trace where the setpoint changes by more than what the source's accuracy and the file's
   * rounding explain.
   *
   * @param tolerance ± % of travel at a setpoint
   */
  static List<Plateau> of(List<TraceRows.Row> rows, DoubleUnaryOperator tolerance) {
    List<Plateau> plateaus = new ArrayList<>();
    List<TraceRows.Row> open = new ArrayList<>();
    for (TraceRows.Row row : rows) {
      boolean other =
          !open.isEmpty()
              && Math.abs(row.setpointPercent() - open.get(0).setpointPercent())
                  > 2.0 * tolerance.applyAsDouble(row.setpointPercent());
      if (other) {
        plateaus.add(closed(open));
        open = new ArrayList<>();
      }
      open.add(row);
    }
    plateaus.add(closed(open));
    return plateaus;
  }

  private static Plateau closed(List<TraceRows.Row> rows) {
    double percent =
        rows.stream().mapToDouble(TraceRows.Row::setpointPercent).average().orElseThrow();
    double milliamps = rows.stream().mapToDouble(TraceRows.Row::milliamps).average().orElseThrow();
    return new Plateau(Tolerance.clean(percent), Tolerance.clean(milliamps), rows);
  }
}
