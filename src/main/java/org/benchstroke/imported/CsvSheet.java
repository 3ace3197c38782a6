package org.benchstroke.imported;

import java.io.IOException;
import java.io.StringReader;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.bench.toml.Mistake;

/**
 * A file of comma-separated values: a header and rows of as many cells. UTF-8, with or without a
 * byte order mark; the separator is a comma, a semicolon or a tab, as in the header; quotes as in
 * RFC 4180. Immutable.
 *
 * @param file the file as it was named
 * @param name its name without folders
 * @param sha256 SHA-256 of its bytes
 * @param separator between two cells
 * @param headerLine the header's line, from 1
 * @param header the columns' names
 * @param rows the rows
 */
record CsvSheet(
    String file,
    String name,
    String sha256,
    char separator,
    int headerLine,
    List<String> header,
    List<Row> rows) {
  private static final char[] SEPARATORS = {';', '\t', ','};
  private static final char MARK = '\uFEFF';

  /** One row; line counts from 1. */
  record Row(int line, List<String> cells) {
    Row {
      cells = List.copyOf(cells);
    }
  }

  CsvSheet {
    header = List.copyOf(header);
    rows = List.copyOf(rows);
  }

  /**
   * Reads a file.
   *
   * @throws FileMistakes if it is not such a file
   */
  static CsvSheet read(Path path) throws FileMistakes {
    byte[] bytes = bytes(path);
    String text = text(path, bytes);
    char separator = separator(text);
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(separator)
            .setIgnoreSurroundingSpaces(true)
            .setIgnoreEmptyLines(true)
            .get();
    List<Row> rows = new ArrayList<>();
    try (CSVParser parser =
        CSVParser.builder().setReader(new StringReader(text)).setFormat(format).get()) {
      int line = 1;
      for (CSVRecord record : parser) {
        // The parser's number is that of the record's last line.
        line = (int) Math.max(line, parser.getCurrentLineNumber());
        rows.add(new Row(line, record.toList()));
      }
    } catch (IOException | IllegalArgumentException | java.io.UncheckedIOException e) {
      throw mistake(
          path.toString(), 0, "", "is no table of comma-separated values: " + e.getMessage());
    }
    if (rows.size() < 2) {
      throw mistake(
          path.toString(), 0, "", "holds no rows; a header and a row for each reading are needed");
    }
    requireWhole(path, rows);
    return new CsvSheet(
        path.toString(),
        path.getFileName().toString(),
        sha256(bytes),
        separator,
        rows.get(0).line(),
        rows.get(0).cells().stream().map(String::strip).toList(),
        rows.subList(1, rows.size()));
  }

  private static void requireWhole(Path path, List<Row> rows) throws FileMistakes {
    int columns = rows.get(0).cells().size();
    for (Row row : rows) {
      if (row.cells().size() != columns) {
        throw mistake(
            path.toString(),
            row.line(),
            "",
            "has "
                + row.cells().size()
                + (row.cells().size() == 1 ? " cell" : " cells")
                + " where the header has "
                + columns
                + "; every row must have as many (a decimal comma needs semicolons between cells)");
      }
    }
  }

  /** A cell's text; empty if nothing stands there. */
  Optional<String> cell(Row row, int column) {
    String text = row.cells().get(column).strip();
    return text.isEmpty() || text.equalsIgnoreCase("nan") ? Optional.empty() : Optional.of(text);
  }

  /** A mistake at a cell. */
  FileMistakes mistake(Row row, int column, String message) {
    return mistake(file, row.line(), "column \"" + header.get(column) + "\"", message);
  }

  static FileMistakes mistake(String file, int line, String key, String message) {
    return new FileMistakes(List.of(new Mistake(file, line, key, message)));
  }

  private static byte[] bytes(Path path) throws FileMistakes {
    try {
      return Files.readAllBytes(path);
    } catch (NoSuchFileException e) {
      throw mistake(path.toString(), 0, "", "there is no such file; check the name and the folder");
    } catch (IOException e) {
      throw mistake(path.toString(), 0, "", "can't be read: " + e.getMessage());
    }
  }

  private static String text(Path path, byte[] bytes) throws FileMistakes {
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return !text.isEmpty() && text.charAt(0) == MARK ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw mistake(path.toString(), 0, "", "is not UTF-8; save it as \"CSV UTF-8\"");
    }
  }

  /** The one that the first line has most of, outside of quotes. */
  private static char separator(String text) {
    String header = text.lines().filter(line -> !line.isBlank()).findFirst().orElse("");
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
