package org.benchstroke.web.desk;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.benchstroke.papers.Csv;
import org.benchstroke.web.Visit;

/**
 * A table of a page, which is also one for a spreadsheet. Every row has as many cells as there are
 * heads. Immutable.
 *
 * @param caption what it shows
 * @param heads of the columns
 * @param rows from the top
 * @param none what is said where there are no rows
 */
public record Table(String caption, List<String> heads, List<List<Cell>> rows, String none) {
  public Table {
    heads = List.copyOf(heads);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /** Whether a column holds numbers. */
  public boolean figures(int column) {
    return !rows.isEmpty() && rows.get(0).get(column).figure();
  }

  /** As comma-separated values. */
  String csv() {
    Csv csv = new Csv(heads);
    rows.forEach(row -> csv.row(row.stream().map(Cell::raw).toList()));
    return Csv.MARK + csv.text();
  }

  /** Whether a visitor asks for the file instead of the page. */
  static boolean asked(Visit visit) {
    return visit.query("as").filter("csv"::equals).isPresent();
  }

  /** Answers with the file. */
  void download(Visit visit, String name) {
    visit.download(
        name + ".csv", "text/csv; charset=utf-8", csv().getBytes(StandardCharsets.UTF_8));
  }
}
