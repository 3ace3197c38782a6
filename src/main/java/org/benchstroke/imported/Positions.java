package org.benchstroke.imported;

import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/** Readings of a file in % of travel, and whether they are at an end of the meter's range. */
final class Positions {
  private final UnitType unit;
  private final Map<String, Column> columns;
  private final BenchFile bench;

  Positions(BenchFile bench, UnitType unit, Map<String, Column> columns) {
    this.bench = bench;
    this.unit = unit;
    this.columns = columns;
  }

  /** The position of a row, %; only where it has one. */
  double percent(TraceRows.Row row) {
    return percent(row.values().get("position"), columns.get("position").unit());
  }

  double percent(double value, String in) {
    return in.equals("mA")
        ? unit.feedback().positionAt(Current.ofMilliamps(value)).percent()
        : value;
  }

  /** "good" or "saturated", by the range that the bench file states for the meter. */
  String quality(String what, double value, String in) {
    Role role =
        switch (what) {
          case "stem" -> Role.ANGLE_REFERENCE;
          case "loop" -> Role.LOOP_METER;
          default -> Role.POSITION_TRANSMITTER;
        };
    Optional<Channel> channel = bench.playing(role).map(s -> s.channels().get(role));
    boolean end =
        channel
            .map(c -> c.doubtsOf(inUnit(value, in, c.unit())).contains(Doubt.SATURATED))
            .orElse(false);
    return end ? Event.Sampled.SATURATED : Event.Sampled.GOOD;
  }

  /** A value of a column in an instrument's unit. */
  double inUnit(double value, String in, String wanted) {
    if (in.equals(wanted)) {
      return value;
    }
    return switch (wanted) {
      case "mA" -> unit.feedback().currentAt(Position.ofPercent(value)).milliamps();
      case "deg" -> value / 100.0 * unit.travelDegrees();
      default -> in.equals("deg") ? value / unit.travelDegrees() * 100.0 : percent(value, in);
    };
  }
}
