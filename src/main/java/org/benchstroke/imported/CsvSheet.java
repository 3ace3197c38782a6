package org.benchstroke.imported;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;

/**
 * A file of comma-separated values: a header and rows of as many cells. UTF-8, with or without a
 * byte order mark; the separator is a comma, a semicolon or a tab, as in the header; quotes as in
 * RFC 4180. Lines that begin with # are comments. Immutable.
 *
 * @param file the file as it was named
 * @param name its name without folders
 * @param sha256 SHA-256 of its bytes
 * @param separator between two cells
 * @param headerLine the header's line, from 1
 * @param header the columns' names
 * @param rows the rows
 * @param commentedOut the lines of rows of figures that stand behind a #
 */
record CsvSheet(
    String file,
    String name,
    String sha256,
    char separator,
    int headerLine,
    List<String> header,
    List<Row> rows,
    List<Integer> commentedOut) {
  private static final char[] SEPARATORS = {';', '\t', ','};
  private static final char COMMENT = '#';
  private static final String NAN = "nan";
  private static final Pattern FIGURE =
      Pattern.compile("[+-]?([0-9]+[.,]?[0-9]*|[.,][0-9]+)([eE][+-]?[0-9]{1,3})?");

  /** What a comment of words is taken for a row by is no single figure in it. */
  private static final int LEAST_FIGURES = 2;

  /** A week at one reading a second, with eight columns. */
  private static final int MOST_BYTES = 50_000_000;

  private static final int MOST_COLUMNS = 500;
  private static final int LONGEST_NAME = 200;
  private static final int LONGEST_SHOWN = 40;

  /** One row; line counts from 1. */
  record Row(int line, List<String> cells) {
    Row {
      cells = List.copyOf(cells);
    }
  }

  CsvSheet {
    header = List.copyOf(header);
    rows = List.copyOf(rows);
    commentedOut = List.copyOf(commentedOut);
  }

  /**
   * Reads a file.
   *
   * @throws FileMistakes if it is not such a file
   */
  static CsvSheet read(Path path) throws FileMistakes {
    String file = path.toString();
    byte[] bytes;
    String text;
    try {
      bytes = GivenFile.bytes(path, MOST_BYTES);
      text = GivenFile.text(bytes);
    } catch (Unreadable e) {
      throw mistake(file, 0, "", e.getMessage());
    }
    refuseZeros(file, text);
    char separator = separator(text);
    List<Row> rows = rows(file, text, separator);
    if (rows.size() < 2) {
      throw mistake(file, 0, "", "holds no rows; a header and a row for each reading are needed");
    }
    requireWhole(file, rows);
    return new CsvSheet(
        file,
        path.getFileName().toString(),
        sha256(bytes),
        separator,
        rows.get(0).line(),
        rows.get(0).cells().stream().map(String::strip).toList(),
        rows.subList(1, rows.size()),
        commentedOut(text, separator, rows.get(1)));
  }

  private static List<Row> rows(String file, String text, char separator) throws FileMistakes {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(separator)
            .setCommentMarker(COMMENT)
            .setIgnoreSurroundingSpaces(true)
            .setIgnoreEmptyLines(true)
            .get();
    List<Row> rows = new ArrayList<>();
    int line = 0;
    try (CSVParser parser =
        CSVParser.builder().setReader(new StringReader(text)).setFormat(format).get()) {
      for (CSVRecord record : parser) {
        // The parser's number is that of the record's last line.
        line = (int) Math.max(line, parser.getCurrentLineNumber());
        if (record.size() > MOST_COLUMNS) {
          String why = "has " + record.size() + " cells; allowed are at most " + MOST_COLUMNS;
          throw mistake(file, line, "", why);
        }
        rows.add(new Row(line, record.toList()));
      }
    } catch (IOException | IllegalArgumentException | UncheckedIOException e) {
      String why = "a quote is out of place from here on: it is not closed, or text follows it";
      throw mistake(file, line + 1, "", why);
    }
    return rows;
  }

  private static boolean isComment(String line) {
    return !line.isEmpty() && line.charAt(0) == COMMENT;
  }

  /** Where a row was left out by a # before it: figures stand wherever the first row has some. */
  private static List<Integer> commentedOut(String text, char separator, Row like) {
    List<Integer> found = new ArrayList<>();
    List<String> lines = text.lines().toList();
    for (int i = 0; i < lines.size(); i++) {
      if (isComment(lines.get(i))) {
        String bare = lines.get(i).replaceFirst("^[#\\s]+", "");
        String[] cells = bare.split(Pattern.quote(String.valueOf(separator)), -1);
        if (isRow(cells, like.cells())) {
          found.add(i + 1);
        }
      }
    }
    return found;
  }

  private static boolean isRow(String[] cells, List<String> like) {
    int figures = 0;
    for (int i = 0; i < Math.min(cells.length, like.size()); i++) {
      boolean figure = isFigure(cells[i]);
      if (isFigure(like.get(i)) && !figure && !cells[i].isBlank()) {
        return false;
      }
      figures += figure ? 1 : 0;
    }
    return figures >= LEAST_FIGURES;
  }

  private static boolean isFigure(String cell) {
    String text = cell.strip();
    return FIGURE.matcher(text).matches() || Column.iso(text).isPresent();
  }

  private static void refuseZeros(String file, String text) throws FileMistakes {
    int at = text.indexOf('\0');
    if (at >= 0) {
      int line = 1 + (int) text.substring(0, at).chars().filter(c -> c == '\n').count();
      throw mistake(file, line, "", "holds a zero byte; that is not text: export the file again");
    }
  }

  private static void requireWhole(String file, List<Row> rows) throws FileMistakes {
    int columns = rows.get(0).cells().size();
    List<Mistake> mistakes = new ArrayList<>();
    if (rows.get(0).cells().stream().anyMatch(name -> name.length() > LONGEST_NAME)) {
      String why = "has a name of more than " + LONGEST_NAME + " characters; is this the header?";
      throw mistake(file, rows.get(0).line(), "", why);
    }
    for (Row row : rows) {
      if (row.cells().size() != columns) {
        String why =
            "has "
                + row.cells().size()
                + (row.cells().size() == 1 ? " cell" : " cells")
                + " where the header has "
                + columns
                + "; every row must have as many (a decimal comma needs semicolons between cells)";
        mistakes.add(new Mistake(file, row.line(), "", why));
      }
    }
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
  }

  /** A cell's text; empty if nothing stands there. */
  Optional<String> cell(Row row, int column) {
    String text = row.cells().get(column).strip();
    return text.isEmpty() || text.equalsIgnoreCase(NAN) ? Optional.empty() : Optional.of(text);
  }

  /** Whether "not a number" is written there, as some loggers do where nothing was read. */
  boolean isNaN(Row row, int column) {
    return row.cells().get(column).strip().equalsIgnoreCase(NAN);
  }

  /** A text of the file as messages show it: in quotes, and not without end. */
  static String shown(String text) {
    return "\"" + cut(text) + "\"";
  }

  private static String cut(String text) {
    return text.length() <= LONGEST_SHOWN ? text : text.substring(0, LONGEST_SHOWN) + "…";
  }

  /** The names of all columns, for messages. */
  String columns() {
    List<String> some = header.stream().limit(LONGEST_SHOWN).map(CsvSheet::cut).toList();
    return String.join(", ", some) + (header.size() > some.size() ? ", …" : "");
  }

  /** A mistake at a cell. */
  FileMistakes mistake(Row row, int column, String message) {
    return mistake(file, row.line(), "column " + shown(header.get(column)), message);
  }

  static FileMistakes mistake(String file, int line, String key, String message) {
    return new FileMistakes(List.of(new Mistake(file, line, key, message)));
  }

  /** The one that the first line has most of, outside of quotes. */
  private static char separator(String text) {
    String header =
        text.lines().filter(line -> !line.isBlank() && !isComment(line)).findFirst().orElse("");
    String bare = header.replaceAll("\"[^\"]*\"", "");
    char best = ',';
    long most = 0;
    for (char each : SEPARATORS) {
      long count = bare.chars().filter(c -> c == each).count();
      if (count > most) {
        best = each;
        most = count;
      }
    }
    return best;
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
