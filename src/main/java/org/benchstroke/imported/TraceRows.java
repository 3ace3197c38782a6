package org.benchstroke.imported;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.unit.UnitType;

/**
 * The rows of a trace as numbers, and what is wrong with each. Immutable.
 *
 * @param rows in the file's order
 * @param first the time of day of the first row, if the file has it
 * @param timeStepSeconds the step of its time stamps, s
 */
record TraceRows(List<Row> rows, Optional<Instant> first, double timeStepSeconds) {

  /**
   * One row.
   *
   * @param line in the file, from 1
   * @param seconds since the first row; for a row without a sound time, that of the row before
   * @param setpointPercent % of travel; for a row without one, that of the row before
   * @param milliamps that setpoint as a current, mA
   * @param values what was read, by channel
   * @param damage what makes all figures about it worthless; empty if nothing does
   */
  record Row(
      int line,
      double seconds,
      double setpointPercent,
      double milliamps,
      Map<String, Double> values,
      String damage) {
    Row {
      values = Map.copyOf(values);
    }

    boolean positioned() {
      return values.containsKey("position");
    }
  }

  TraceRows {
    rows = List.copyOf(rows);
  }

  static TraceRows of(CsvSheet sheet, Map<String, Column> columns, UnitType unit)
      throws FileMistakes {
    Column time = columns.get("time");
    Column setpoint = columns.get("setpoint");
    Optional<Instant> first = Optional.empty();
    if (time.unit().equals(Column.ISO)) {
      for (CsvSheet.Row row : sheet.rows()) {
        first = first.isPresent() ? first : time.instant(sheet, row);
      }
    }
    List<Row> rows = new ArrayList<>();
    boolean onChange = setpoint.onChange(sheet);
    OptionalDouble inForce = OptionalDouble.empty();
    double zero = Double.NaN;
    for (CsvSheet.Row row : sheet.rows()) {
      OptionalDouble seconds = time.seconds(sheet, row, first);
      if (seconds.isPresent() && Double.isNaN(zero)) {
        zero = seconds.getAsDouble();
      }
      OptionalDouble since =
          seconds.isPresent() ? OptionalDouble.of(seconds.getAsDouble() - zero) : seconds;
      Map<String, Double> values = values(sheet, columns, row);
      OptionalDouble written = setpoint.number(sheet, row);
      inForce = onChange && written.isEmpty() ? inForce : written;
      rows.add(row(row, since, setpoint, inForce, values, rows, unit));
    }
    return new TraceRows(rows, first, time.step(sheet));
  }

  private static Map<String, Double> values(
      CsvSheet sheet, Map<String, Column> columns, CsvSheet.Row row) throws FileMistakes {
    Map<String, Double> values = new java.util.LinkedHashMap<>();
    for (Column column : columns.values()) {
      boolean read =
          List.of("position", "stem", "loop").contains(column.what())
              || column.what().startsWith(Columns.SWITCH);
      OptionalDouble value = read ? column.number(sheet, row) : OptionalDouble.empty();
      if (value.isPresent()) {
        values.put(column.what(), value.getAsDouble());
      }
    }
    return values;
  }

  private static Row row(
      CsvSheet.Row row,
      OptionalDouble seconds,
      Column column,
      OptionalDouble setpoint,
      Map<String, Double> values,
      List<Row> before,
      UnitType unit) {
    Row last = before.isEmpty() ? null : before.get(before.size() - 1);
    double lastSeconds = last == null ? 0.0 : last.seconds();
    boolean known = setpoint.isPresent();
    double percent = last == null ? 0.0 : last.setpointPercent();
    double milliamps = last == null ? 0.0 : last.milliamps();
    if (known && column.unit().equals("mA")) {
      milliamps = setpoint.getAsDouble();
      percent = unit.positionAt(Current.ofMilliamps(milliamps)).percent();
    } else if (known) {
      percent = setpoint.getAsDouble();
      milliamps = unit.currentAt(Position.ofPercent(percent)).milliamps();
    }
    String damage = "";
    if (seconds.isEmpty()) {
      damage = "the time is missing";
    } else if (last != null && seconds.getAsDouble() < lastSeconds) {
      damage =
          "the time goes back by "
              + Numbers.significant(lastSeconds - seconds.getAsDouble(), 3)
              + " s";
    } else if (last != null
        && seconds.getAsDouble() == lastSeconds
        && last.positioned()
        && values.containsKey("position")) {
      damage = "the time is that of the row before";
    } else if (!known) {
      damage = "the setpoint is missing";
    }
    double sound = Math.max(lastSeconds, seconds.orElse(lastSeconds));
    return new Row(row.line(), sound, percent, milliamps, values, damage);
  }
}
