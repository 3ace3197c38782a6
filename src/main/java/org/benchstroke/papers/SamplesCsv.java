package org.benchstroke.papers;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * The raw samples of a record as comma-separated values, RFC 4180: a row for each setpoint and each
 * reading, by time; a cell is empty where nothing was read. {@code judge} takes it back. The same
 * record gives the same bytes on any machine. Stateless.
 */
public final class SamplesCsv {
  private static final int NANO_DECIMALS = 9;

  private SamplesCsv() {}

  /** A row: when, the setpoint that it sets, or what was read. */
  private record Row(long nanos, OptionalDouble milliamps, Map<String, Double> cells) {}

  /** The text; to be stored as UTF-8. Times are seconds since the record was opened. */
  public static String text(RunRecord record) {
    List<Row> rows = new ArrayList<>();
    Set<String> columns = new LinkedHashSet<>();
    for (Entry entry : record.entries()) {
      if (entry.event() instanceof Event.Commanded e) {
        rows.add(setpoint(e.answeredNanos(), e.currentMilliamps()));
      } else if (entry.event() instanceof Event.Disturbed e) {
        rows.add(setpoint(e.answeredNanos(), e.currentMilliamps()));
      } else if (entry.event() instanceof Event.MadeSafe e) {
        rows.add(setpoint(entry.nanos(), e.signalMilliamps()));
      } else if (entry.event() instanceof Event.Sampled e) {
        String column = e.channel() + " [" + e.unit() + "]";
        columns.add(column);
        long stamp = e.askedNanos() + (e.answeredNanos() - e.askedNanos()) / 2;
        rows.add(new Row(stamp, OptionalDouble.empty(), Map.of(column, e.value())));
      }
    }
    rows.sort(Comparator.comparingLong(Row::nanos));
    return table(rows, columns);
  }

  private static Row setpoint(long nanos, double milliamps) {
    return new Row(nanos, OptionalDouble.of(milliamps), new TreeMap<>());
  }

  private static String table(List<Row> rows, Set<String> columns) {
    List<String> heads = new ArrayList<>(List.of("time [s]", "setpoint [mA]"));
    heads.addAll(columns);
    Csv csv = new Csv(heads);
    OptionalDouble setpoint = OptionalDouble.empty();
    for (Row row : rows) {
      if (row.milliamps().equals(setpoint) && setpoint.isPresent()) {
        continue;
      }
      setpoint = row.milliamps().isPresent() ? row.milliamps() : setpoint;
      List<Object> cells = new ArrayList<>();
      cells.add(BigDecimal.valueOf(row.nanos(), NANO_DECIMALS));
      cells.add(setpoint);
      columns.forEach(column -> cells.add(Optional.ofNullable(row.cells().get(column))));
      csv.row(cells);
    }
    return csv.text();
  }
}
