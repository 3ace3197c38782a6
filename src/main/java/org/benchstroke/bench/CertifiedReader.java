package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.TomlSection;

/** Reads what a calibration certificate says of a channel. Stateless. */
final class CertifiedReader {
  /** The list of its points in a channel's table. */
  static final String TABLE = "certified";

  private static final double FARTHEST = 1.0e4;

  private CertifiedReader() {}

  /**
   * The points, if the table states them.
   *
   * @param suffix of the channel's unit, which ends the names of the keys
   */
  static Optional<CertifiedPoints> read(TomlSection table, String suffix, String unit) {
    if (!table.has(TABLE)) {
      return Optional.empty();
    }
    List<CertifiedPoints.Point> points = new ArrayList<>();
    for (TomlSection section : table.sections(TABLE)) {
      point(section, suffix, unit, points).ifPresent(points::add);
    }
    if (points.size() < CertifiedPoints.LEAST) {
      table.mistake(
          TABLE,
          "needs at least "
              + CertifiedPoints.LEAST
              + " points with rising at_"
              + suffix
              + ", so that it shows how the error bends between them");
      return Optional.empty();
    }
    if (!table.has("drift_per_year")) {
      table.mistake(
          "drift_per_year",
          "is missing: a certificate speaks of the day of the calibration; write what a year may"
              + " add, "
              + AccuracyText.ALLOWED);
    }
    return Optional.of(new CertifiedPoints(points));
  }

  private static Optional<CertifiedPoints.Point> point(
      TomlSection section, String suffix, String unit, List<CertifiedPoints.Point> before) {
    String key = "at_" + suffix;
    double at = section.number(key, -FARTHEST, FARTHEST, unit);
    double correction = section.number("correction_" + suffix, -FARTHEST, FARTHEST, unit);
    double expanded = section.number("U_" + suffix, 0.0, FARTHEST, unit);
    double k = section.number("k", 1.0, 15.0, "");
    section.noOtherKeys();
    if (!before.isEmpty() && at <= before.get(before.size() - 1).at()) {
      section.mistake(
          key,
          "must be above the "
              + Numbers.plain(before.get(before.size() - 1).at())
              + " "
              + unit
              + " of the point before");
      return Optional.empty();
    }
    return Optional.of(new CertifiedPoints.Point(at, correction, expanded / k));
  }
}
