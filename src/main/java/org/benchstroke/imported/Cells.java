package org.benchstroke.imported;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;

/**
 * Looks at every cell that is going to be read, before anything is made of one: all mistakes of a
 * file are told at once. Stateless.
 */
final class Cells {
  /** No reading is so large: it stands for "no reading" in the logger that wrote it. */
  private static final Map<String, Double> LARGEST = Map.of("%", 1000.0, "mA", 100.0, "deg", 1.0e4);

  /** Three years, s. */
  private static final double LONGEST_SECONDS = 1.0e8;

  private Cells() {}

  /**
   * Requires that each cell holds what its column is taken for, or nothing.
   *
   * @throws FileMistakes with every cell that doesn't
   */
  static void require(CsvSheet sheet, Map<String, Column> columns) throws FileMistakes {
    List<Mistake> mistakes = new ArrayList<>();
    for (Column column : columns.values()) {
      Optional<Instant> first = Optional.empty();
      OptionalDouble zero = OptionalDouble.empty();
      for (CsvSheet.Row row : sheet.rows()) {
        try {
          if (column.what().equals("time")) {
            first = first.or(() -> iso(sheet, column, row));
            OptionalDouble at = column.seconds(sheet, row, first);
            zero = zero.isPresent() ? zero : at;
            requireNear(sheet, column, row, at, zero);
          } else if (!List.of("direction", Columns.SERIAL).contains(column.what())) {
            requireSane(sheet, column, row, column.number(sheet, row));
          }
        } catch (FileMistakes e) {
          mistakes.addAll(e.mistakes());
        }
      }
    }
    if (!mistakes.isEmpty()) {
      mistakes.sort((a, b) -> Integer.compare(a.line(), b.line()));
      throw new FileMistakes(mistakes);
    }
  }

  private static Optional<Instant> iso(CsvSheet sheet, Column column, CsvSheet.Row row) {
    return column.unit().equals(Column.ISO)
        ? sheet.cell(row, column.index()).flatMap(Column::iso)
        : Optional.empty();
  }

  private static void requireNear(
      CsvSheet sheet, Column column, CsvSheet.Row row, OptionalDouble at, OptionalDouble zero)
      throws FileMistakes {
    if (at.isPresent() && Math.abs(at.getAsDouble() - zero.getAsDouble()) > LONGEST_SECONDS) {
      throw sheet.mistake(
          row,
          column.index(),
          "lies years from the first row's time; correct it, or leave it empty");
    }
  }

  private static void requireSane(
      CsvSheet sheet, Column column, CsvSheet.Row row, OptionalDouble value) throws FileMistakes {
    double largest = LARGEST.getOrDefault(column.unit(), Double.MAX_VALUE);
    if (value.isPresent() && Math.abs(value.getAsDouble()) > largest) {
      throw sheet.mistake(
          row,
          column.index(),
          "\""
              + Numbers.plain(value.getAsDouble())
              + "\" is not a reading; allowed is up to ±"
              + Numbers.plain(largest)
              + " "
              + column.unit()
              + ", or an empty cell where nothing was read");
    }
  }
}
