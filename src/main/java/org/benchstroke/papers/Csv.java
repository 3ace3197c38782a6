package org.benchstroke.papers;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.benchstroke.core.quantity.Numbers;

/**
 * A table as comma-separated values, RFC 4180, with the names of its columns in the first line. A
 * number has a decimal point and all its digits; what does not exist is an empty cell. A text that
 * a spreadsheet would take for a formula gets an apostrophe in front ({@link #guarded}). For one
 * thread.
 */
public final class Csv {
  private static final CSVFormat FORMAT = CSVFormat.RFC4180;

  /** What a spreadsheet knows UTF-8 by. */
  public static final String MARK = "\ufeff";

  /** By these a spreadsheet knows a formula, or leaves the first character out and then does. */
  private static final String FORMULA = "=+-@\t\r\n'＝＋－＠";

  private final StringBuilder text = new StringBuilder();
  private final CSVPrinter printer;

  /** With these names of columns. */
  public Csv(List<String> columns) {
    try {
      printer = new CSVPrinter(text, FORMAT);
    } catch (IOException e) {
      throw new UncheckedIOException("a text takes all that is written", e);
    }
    line(columns.stream());
  }

  /**
   * Adds a row.
   *
   * @param cells texts, numbers, truth values, or an optional one of these
   */
  public Csv row(List<?> cells) {
    line(cells.stream().map(Csv::cell));
    return this;
  }

  private void line(Stream<String> cells) {
    try {
      printer.printRecord(cells);
    } catch (IOException e) {
      throw new UncheckedIOException("a text takes all that is written", e);
    }
  }

  /** The table; to be stored as UTF-8. */
  public String text() {
    return text.toString();
  }

  private static String cell(Object cell) {
    if (cell instanceof Optional<?> perhaps) {
      return perhaps.map(Csv::cell).orElse("");
    }
    if (cell instanceof OptionalDouble perhaps) {
      return perhaps.isPresent() ? cell(perhaps.getAsDouble()) : "";
    }
    if (cell instanceof Double number) {
      return Double.isFinite(number) ? Numbers.exact(number) : "";
    }
    if (cell instanceof BigDecimal number) {
      return number.toPlainString();
    }
    return cell instanceof String words ? guarded(words) : String.valueOf(cell);
  }

  /**
   * The text with an apostrophe in front if it begins with what a spreadsheet acts on, or with an
   * apostrophe: whoever takes one apostrophe off the front has the text as it was.
   */
  static String guarded(String text) {
    return !text.isEmpty() && FORMULA.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }
}
