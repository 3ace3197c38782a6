package org.benchstroke.imported;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.benchstroke.core.toml.FileMistakes;

/**
 * One column of a file and what it is taken for. Immutable.
 *
 * @param what "time", "setpoint", "position", "stem", "loop", a switch, "direction", "cycle" or
 *     "reading"
 * @param index its place in a row
 * @param name its header
 * @param written the unit of its numbers in the file; empty where there is none
 * @param unit the one that they are given in here: "s", "mA", "%", "deg"
 * @param factor one of the file's unit in that one
 * @param comma whether its numbers have a decimal comma
 */
record Column(
    String what,
    int index,
    String name,
    String written,
    String unit,
    BigDecimal factor,
    boolean comma) {
  static final String ISO = "iso";
  private static final Pattern POINT =
      Pattern.compile("[+-]?([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?");
  private static final Pattern COMMA =
      Pattern.compile("[+-]?([0-9]+,?[0-9]*|,[0-9]+)([eE][+-]?[0-9]{1,3})?");

  /** Longer is nothing that an instrument said. */
  private static final int LONGEST_NUMBER = 40;

  /** Rarer than this is no chance; our choice. */
  private static final double CHANCE = 1.0e-3;

  private static final Instant EARLIEST = Instant.parse("1900-01-01T00:00:00Z");
  private static final Instant LATEST = Instant.parse("2200-01-01T00:00:00Z");

  String text() {
    return what + ": " + name + (written.isEmpty() ? "" : ", " + written);
  }

  /**
   * The number in a row; empty if the cell is empty.
   *
   * @throws FileMistakes if something else than a number stands there
   */
  OptionalDouble number(CsvSheet sheet, CsvSheet.Row row) throws FileMistakes {
    Optional<String> text = sheet.cell(row, index);
    if (text.isEmpty()) {
      return OptionalDouble.empty();
    }
    double value = isNumber(text.get()) ? decimal(text.get()).doubleValue() : Double.NaN;
    if (!Double.isFinite(value)) {
      throw sheet.mistake(
          row,
          index,
          CsvSheet.shown(text.get())
              + " is not a number; allowed are numbers with a decimal "
              + (comma ? "comma" : "point")
              + " and nothing between thousands, or an empty cell");
    }
    return OptionalDouble.of(value + 0.0); // -0 is 0
  }

  /** In its unit here, exactly. */
  private BigDecimal decimal(String text) {
    return new BigDecimal(text.replace(',', '.')).multiply(factor);
  }

  private boolean isNumber(String text) {
    return text.length() <= LONGEST_NUMBER && (comma ? COMMA : POINT).matcher(text).matches();
  }

  /**
   * The time in a row, s: since the first row's day or from the file's own zero.
   *
   * @throws FileMistakes if something else than a time stands there
   */
  OptionalDouble seconds(CsvSheet sheet, CsvSheet.Row row, Optional<Instant> first)
      throws FileMistakes {
    if (!unit.equals(ISO)) {
      return number(sheet, row);
    }
    Optional<Instant> instant = instant(sheet, row);
    if (instant.isEmpty()) {
      return OptionalDouble.empty();
    }
    java.time.Duration since =
        java.time.Duration.between(first.orElse(instant.get()), instant.get());
    return OptionalDouble.of(since.getSeconds() + since.getNano() / 1.0e9);
  }

  /** The time of day in a row of ISO timestamps; without an offset it is taken for UTC. */
  Optional<Instant> instant(CsvSheet sheet, CsvSheet.Row row) throws FileMistakes {
    Optional<String> text = sheet.cell(row, index);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Optional<Instant> instant = iso(text.get());
    if (instant.isEmpty()) {
      throw sheet.mistake(
          row,
          index,
          CsvSheet.shown(text.get())
              + " is not a time; allowed is 2026-06-01T08:00:00.25, with an offset or"
              + " Z behind it");
    }
    return instant;
  }

  static Optional<Instant> iso(String text) {
    String sound = text.replace(' ', 'T').replace(',', '.');
    try {
      return Optional.of(OffsetDateTime.parse(sound).toInstant()).filter(Column::isSane);
    } catch (DateTimeParseException e) {
      try {
        return Optional.of(LocalDateTime.parse(sound).toInstant(ZoneOffset.UTC))
            .filter(Column::isSane);
      } catch (DateTimeParseException none) {
        return Optional.empty();
      }
    }
  }

  private static boolean isSane(Instant instant) {
    return instant.isAfter(EARLIEST) && instant.isBefore(LATEST);
  }

  /** The step of its numbers: one of the last digit of the finest cell, in its unit (time: s). */
  double step(CsvSheet sheet) {
    return sheet.rows().stream()
        .map(row -> sheet.cell(row, index))
        .flatMap(Optional::stream)
        .mapToDouble(this::lastDigit)
        .min()
        .orElse(0.0);
  }

  /**
   * The step in which its numbers go, if that is beyond an allowed one: the last digit of the
   * finest cell, or a multiple of it that all cells are multiples of, so that it is no chance.
   *
   * @return the first such step found; the last digit where none is beyond
   */
  double stepBeyond(CsvSheet sheet, double allowed) {
    double digit = step(sheet);
    List<BigDecimal> values =
        sheet.rows().stream()
            .map(row -> sheet.cell(row, index))
            .flatMap(Optional::stream)
            .map(this::decimal)
            .toList();
    int changes = 0;
    for (int i = 1; i < values.size(); i++) {
      changes += values.get(i).compareTo(values.get(i - 1)) == 0 ? 0 : 1;
    }
    double step = digit;
    while (step <= allowed) {
      double coarser = coarser(values, step, changes);
      if (coarser == step) {
        return digit;
      }
      step = coarser;
    }
    return step;
  }

  private static double coarser(List<BigDecimal> values, double step, int changes) {
    for (int times : new int[] {10, 5, 2}) {
      BigDecimal coarser =
          BigDecimal.valueOf(step).multiply(BigDecimal.valueOf(times)).stripTrailingZeros();
      boolean chance = Math.pow(times, -changes) > CHANCE;
      if (!chance && values.stream().allMatch(v -> v.remainder(coarser).signum() == 0)) {
        return coarser.doubleValue();
      }
    }
    return step;
  }

  /**
   * Whether its cells stand only where it changes, and are empty until the next change: each that
   * is there differs from the one before by more than a reading flickers.
   */
  boolean onChange(CsvSheet sheet) {
    double last = Double.NaN;
    int there = 0;
    for (CsvSheet.Row row : sheet.rows()) {
      Optional<String> text = sheet.cell(row, index).filter(this::isNumber);
      if (text.isPresent()) {
        double value = decimal(text.get()).doubleValue();
        if (Math.abs(value - last) < (unit.equals("mA") ? 0.02 : 0.1)) {
          return false;
        }
        last = value;
        there++;
      }
    }
    return there > 0 && 2 * there < sheet.rows().size();
  }

  /**
   * Whether most of its cells repeat the one before: it then holds what was commanded, and not a
   * reading, which flickers.
   */
  boolean repeats(CsvSheet sheet) {
    List<String> cells =
        sheet.rows().stream().map(row -> sheet.cell(row, index)).flatMap(Optional::stream).toList();
    int same = 0;
    for (int i = 1; i < cells.size(); i++) {
      same += cells.get(i).equals(cells.get(i - 1)) ? 1 : 0;
    }
    return 2 * same > cells.size() || onChange(sheet);
  }

  private double lastDigit(String text) {
    if (!unit.equals(ISO)) {
      return decimal(text).ulp().doubleValue();
    }
    String bare = text.replaceAll("(Z|[+-]\\d\\d:?\\d\\d)$", "");
    int at = Math.max(bare.lastIndexOf('.'), bare.lastIndexOf(','));
    return at < 0 ? 1.0 : Math.pow(10.0, at + 1.0 - bare.length());
  }
}
