package org.benchstroke.imported;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;

/** Finds out which column of a sheet is what: as it was said, or by the header. Stateless. */
final class Columns {
  static final String SWITCH = "switch ";
  static final String SERIAL = "serial";
  private static final Pattern HEADER = Pattern.compile("(.*?)\\s*[\\[(]\\s*([^\\])]*?)\\s*[\\])]");
  private static final Pattern REQUEST = Pattern.compile("([^=]+)=(.+)");
  private static final Map<String, List<String>> UNITS = units();

  /** Other units, in those that are reckoned in. */
  private static final Map<String, Scale> SCALES =
      Map.of(
          "ms", new Scale("s", new BigDecimal("0.001")),
          "min", new Scale("s", new BigDecimal(60)),
          "h", new Scale("s", new BigDecimal(3600)),
          "A", new Scale("mA", new BigDecimal(1000)),
          "µA", new Scale("mA", new BigDecimal("0.001")),
          "uA", new Scale("mA", new BigDecimal("0.001")));

  private record Scale(String unit, BigDecimal factor) {}

  private Columns() {}

  private static Map<String, List<String>> units() {
    List<String> current = List.of("mA", "A", "µA", "uA");
    List<String> signal = List.of("%", "mA", "A", "µA", "uA");
    Map<String, List<String>> units = new LinkedHashMap<>();
    units.put("time", List.of("s", "ms", "min", "h", Column.ISO));
    units.put("setpoint", signal);
    units.put("position", signal);
    units.put("stem", List.of("deg", "%"));
    units.put("loop", current);
    for (LimitSwitch each : LimitSwitch.values()) {
      units.put(SWITCH + each.key(), List.of("made"));
    }
    units.put("direction", List.of(""));
    units.put("cycle", List.of(""));
    units.put("reading", signal);
    units.put(SERIAL, List.of(""));
    return units;
  }

  /**
   * The columns by what they are.
   *
   * @param requests "time=Header:s", as typed
   * @throws FileMistakes if a request or a unit can't be met
   */
  static Map<String, Column> of(CsvSheet sheet, List<String> requests) throws FileMistakes {
    Map<String, Column> found = new LinkedHashMap<>();
    for (String request : requests) {
      Column column = requested(sheet, request);
      if (found.put(column.what(), column) != null) {
        throw wrong(request, column.what() + " is named twice");
      }
    }
    for (int i = 0; i < sheet.header().size(); i++) {
      String what = bare(sheet.header().get(i)).toLowerCase(Locale.ROOT);
      int index = i;
      boolean taken = found.values().stream().anyMatch(c -> c.index() == index);
      if (UNITS.containsKey(what) && !taken && !requested(requests, what)) {
        if (found.put(what, column(sheet, what, i, unitIn(sheet.header().get(i)))) != null) {
          throw CsvSheet.mistake(
              sheet.file(), sheet.headerLine(), "", "two columns are called " + what);
        }
      }
    }
    return found;
  }

  private static boolean requested(List<String> requests, String what) {
    return requests.stream().anyMatch(r -> r.toLowerCase(Locale.ROOT).startsWith(what + "="));
  }

  private static Column requested(CsvSheet sheet, String request) throws FileMistakes {
    Matcher matcher = REQUEST.matcher(request);
    String what = matcher.matches() ? matcher.group(1).strip().toLowerCase(Locale.ROOT) : "";
    if (!UNITS.containsKey(what)) {
      throw wrong(
          request,
          "write WHAT=HEADER or WHAT=HEADER:UNIT; WHAT is one of "
              + String.join(", ", UNITS.keySet()));
    }
    String rest = matcher.group(2).strip();
    Optional<Integer> whole = index(sheet, rest);
    int colon = rest.lastIndexOf(':');
    if (whole.isPresent()) {
      return column(sheet, what, whole.get(), unitIn(sheet.header().get(whole.get())));
    }
    Optional<Integer> named =
        colon < 0 ? Optional.empty() : index(sheet, rest.substring(0, colon).strip());
    if (named.isEmpty()) {
      throw wrong(request, sheet.file() + " has no such column; it has " + sheet.columns());
    }
    return column(sheet, what, named.get(), rest.substring(colon + 1).strip());
  }

  private static Optional<Integer> index(CsvSheet sheet, String name) {
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < sheet.header().size(); i++) {
      String header = sheet.header().get(i);
      if (header.equals(name) || bare(header).equals(name)) {
        found.add(i);
      }
    }
    return found.size() == 1 ? Optional.of(found.get(0)) : Optional.empty();
  }

  private static Column column(CsvSheet sheet, String what, int index, String unit)
      throws FileMistakes {
    List<String> allowed = UNITS.get(what);
    String given =
        what.equals("time") && unit.isEmpty() && looksIso(sheet, index) ? Column.ISO : unit;
    given = allowed.size() == 1 && given.isEmpty() ? allowed.get(0) : given;
    // Two signs of Unicode look alike: the micro and the Greek letter.
    String sought = given.equals("°") ? "deg" : given.replace('\u03bc', '\u00b5');
    Optional<String> found = allowed.stream().filter(u -> u.equalsIgnoreCase(sought)).findFirst();
    String name = sheet.header().get(index);
    if (found.isEmpty()) {
      String why = unit.isEmpty() ? noUnit(what, name) : otherUnit(what, unit);
      throw CsvSheet.mistake(sheet.file(), sheet.headerLine(), "column \"" + name + "\"", why);
    }
    Scale scale = SCALES.getOrDefault(found.get(), new Scale(found.get(), BigDecimal.ONE));
    return new Column(what, index, name, found.get(), scale.unit(), scale.factor(), comma(sheet));
  }

  private static String allowed(String what) {
    return "allowed for "
        + what
        + " is "
        + String.join(", ", UNITS.get(what).stream().filter(u -> !u.isEmpty()).toList());
  }

  private static String noUnit(String what, String name) {
    return "states no unit; "
        + allowed(what)
        + ": write the one that its numbers have in the header, \""
        + bare(name)
        + " [UNIT]\", or --column \""
        + what
        + "="
        + name
        + ":UNIT\"";
  }

  private static String otherUnit(String what, String unit) {
    return "has the unit \""
        + unit
        + "\"; "
        + allowed(what)
        + ": convert its numbers into one of these";
  }

  private static boolean looksIso(CsvSheet sheet, int index) {
    return sheet.rows().stream()
        .map(row -> sheet.cell(row, index))
        .flatMap(Optional::stream)
        .findFirst()
        .flatMap(Column::iso)
        .isPresent();
  }

  /**
   * One decimal mark in the whole file: a comma if any cell has one and commas don't part cells. A
   * point in another cell is then no number, for it might part thousands.
   */
  private static boolean comma(CsvSheet sheet) {
    return sheet.separator() != ','
        && sheet.rows().stream()
            .flatMap(row -> row.cells().stream())
            .anyMatch(cell -> cell.strip().matches("[+-]?\\d*,\\d+"));
  }

  private static String bare(String header) {
    Matcher matcher = HEADER.matcher(header);
    return matcher.matches() ? matcher.group(1).strip() : header.strip();
  }

  private static String unitIn(String header) {
    Matcher matcher = HEADER.matcher(header);
    return matcher.matches() ? matcher.group(2).strip() : "";
  }

  private static FileMistakes wrong(String request, String why) {
    return CsvSheet.mistake("--column " + request, 0, "", why);
  }

  /** Tells which columns are taken for nothing; empty if none is. */
  static Optional<String> unread(CsvSheet sheet, Map<String, Column> columns) {
    List<String> unread = new ArrayList<>();
    for (int i = 0; i < sheet.header().size(); i++) {
      int index = i;
      if (columns.values().stream().noneMatch(c -> c.index() == index)) {
        unread.add(sheet.header().get(i));
      }
    }
    return unread.isEmpty()
        ? Optional.empty()
        : Optional.of("Columns that were not read: " + String.join(", ", unread) + ".");
  }

  /** What else stands in a file of written readings would be judged by nobody. */
  static void requireOnly(CsvSheet sheet, Map<String, Column> columns, List<String> allowed)
      throws FileMistakes {
    for (Column column : columns.values()) {
      if (!allowed.contains(column.what())) {
        throw CsvSheet.mistake(
            sheet.file(),
            sheet.headerLine(),
            "column \"" + column.name() + "\"",
            "has no place beside written readings, whose columns are "
                + String.join(", ", allowed)
                + "; a current that was measured is the setpoint: --column setpoint=HEADER:mA; else"
                + " give the column another header");
      }
    }
  }

  /** What was read by an instrument that the bench file doesn't have can't be judged. */
  static void requireInstruments(CsvSheet sheet, Map<String, Column> columns, BenchFile bench)
      throws FileMistakes {
    for (Role role : List.of(Role.ANGLE_REFERENCE, Role.LOOP_METER)) {
      String what = role == Role.ANGLE_REFERENCE ? "stem" : "loop";
      if (columns.containsKey(what) && bench.playing(role).isEmpty()) {
        throw CsvSheet.mistake(
            sheet.file(),
            sheet.headerLine(),
            "column \"" + columns.get(what).name() + "\"",
            "was read by an instrument that the bench file doesn't have; add one with the role \""
                + role.key()
                + "\" and its accuracy, so that it is judged");
      }
    }
  }

  /** A header of which nothing tells what kind of file it is. */
  static FileMistakes unknown(CsvSheet sheet) {
    return CsvSheet.mistake(
        sheet.file(),
        sheet.headerLine(),
        "",
        "has neither the columns of a trace (time, setpoint, position) nor those of readings that"
            + " were written down (setpoint, direction, reading); name them with --column"
            + " WHAT=HEADER:UNIT, once for each; the file has "
            + sheet.columns());
  }

  /** What this kind of file needs and doesn't have. */
  static void require(CsvSheet sheet, Map<String, Column> columns, String... needed)
      throws FileMistakes {
    List<String> missing = Arrays.stream(needed).filter(n -> !columns.containsKey(n)).toList();
    if (!missing.isEmpty()) {
      throw CsvSheet.mistake(
          sheet.file(),
          sheet.headerLine(),
          "",
          "has no column for "
              + String.join(", ", missing)
              + "; name it with --column "
              + missing.get(0)
              + "=HEADER:UNIT; the file has "
              + sheet.columns());
    }
  }
}
