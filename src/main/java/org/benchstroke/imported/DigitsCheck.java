package org.benchstroke.imported;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;

/**
 * Whether a file's readings are written as finely as the bench file says that the instrument reads:
 * digits that a logger cut off, or that a display never shows, are in no budget. Stateless.
 */
final class DigitsCheck {
  /** A step of a fifth of the accuracy's half-width adds less than 1 % to U. */
  private static final double SHARE = 0.2;

  /** Where an instrument's accuracy is looked at, % of travel. */
  private static final double PLACE = 50.0;

  private static final Map<String, Role> ROLES =
      Map.of(
          "position", Role.POSITION_TRANSMITTER,
          "reading", Role.POSITION_TRANSMITTER,
          "stem", Role.ANGLE_REFERENCE,
          "loop", Role.LOOP_METER);

  private DigitsCheck() {}

  /** What is written too coarsely, and what to do; empty if nothing is. */
  static Optional<String> tooCoarsely(
      CsvSheet sheet, Map<String, Column> columns, Positions positions, BenchFile bench) {
    return columns.values().stream()
        .filter(c -> ROLES.containsKey(c.what()))
        .sorted(java.util.Comparator.comparing(Column::what))
        .map(c -> tooCoarsely(sheet, c, positions, bench))
        .flatMap(Optional::stream)
        .findFirst();
  }

  private static Optional<String> tooCoarsely(
      CsvSheet sheet, Column column, Positions positions, BenchFile bench) {
    Role role = ROLES.get(column.what());
    Optional<Channel> channel = bench.playing(role).map(s -> s.channels().get(role));
    if (channel.isEmpty()) {
      return Optional.empty();
    }
    String wanted = channel.get().unit();
    double scale =
        Math.abs(
            positions.inUnit(1.0, column.unit(), wanted)
                - positions.inUnit(0.0, column.unit(), wanted));
    double at = positions.inUnit(PLACE, "%", wanted);
    double allowed =
        Math.max(channel.get().resolution(), SHARE * channel.get().accuracy().halfWidthAt(at));
    double step = scale * column.stepBeyond(sheet, allowed / scale * (1.0 + 1.0e-9));
    if (step <= allowed * (1.0 + 1.0e-9)) {
      return Optional.empty();
    }
    return Optional.of(
        "the file's "
            + column.what()
            + " goes in steps of "
            + Numbers.significant(step, 2)
            + " "
            + wanted
            + ", the bench file states a resolution of "
            + Numbers.plain(channel.get().resolution())
            + " "
            + wanted
            + "; if it is shown or written no finer, say so in that instrument's resolution");
  }
}
