package org.benchstroke.imported;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.record.RunFault;

/** What a file says against being the whole record of the unit that was ordered. Stateless. */
final class CompletenessCheck {
  private CompletenessCheck() {}

  /** Writes what it says, before any test. */
  static void tell(
      ImportJournal journal, CsvSheet sheet, Map<String, Column> columns, ImportSetup given) {
    commentedOut(sheet).ifPresent(what -> journal.fault(RunFault.ROWS_LEFT_OUT, what));
    otherUnit(sheet, columns, given.serial())
        .ifPresent(what -> journal.fault(RunFault.ANOTHER_UNIT, what));
  }

  private static Optional<String> commentedOut(CsvSheet sheet) {
    int rows = sheet.commentedOut().size();
    return rows == 0
        ? Optional.empty()
        : Optional.of(
            "line "
                + sheet.commentedOut().get(0)
                + (rows == 1 ? "" : " and " + (rows - 1) + " more")
                + " holds figures behind a #; what was recorded counts: take the # away, or give"
                + " the file as it was recorded");
  }

  private static Optional<String> otherUnit(
      CsvSheet sheet, Map<String, Column> columns, String ordered) {
    Optional<Column> serial = Optional.ofNullable(columns.get(Columns.SERIAL));
    return sheet.rows().stream()
        .filter(row -> serial.isPresent())
        .filter(
            row ->
                sheet
                    .cell(row, serial.get().index())
                    .filter(s -> !s.equalsIgnoreCase(ordered.strip()))
                    .isPresent())
        .findFirst()
        .map(
            row ->
                "line "
                    + row.line()
                    + " is of the unit "
                    + CsvSheet.shown(sheet.cell(row, serial.get().index()).orElseThrow())
                    + ", the order is for "
                    + CsvSheet.shown(ordered)
                    + "; a file holds the rows of one unit");
  }
}
