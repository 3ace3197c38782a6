package org.benchstroke.bench;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;

/** Reads the temperatures of a bench and those at which an accuracy holds. Stateless. */
final class TemperatureReader {
  private static final String AMBIENT = "ambient_c";
  private static final String REFERENCE = "reference_c";
  private static final String RANGE = "reference_range_k";
  private static final String COEFFICIENT = "temperature_coefficient";
  static final double COLDEST = -40.0;
  static final double HOTTEST = 85.0;
  private static final String CELSIUS = "°C";

  private TemperatureReader() {}

  /** The bench's temperature: one number, or a table with the lowest and the highest. */
  static Optional<TemperatureRange> ambient(TomlSection root) {
    if (root.optional(AMBIENT).filter(TemperatureReader::isOneWord).isPresent()) {
      OptionalDouble one = root.optionalNumber(AMBIENT, COLDEST, HOTTEST, CELSIUS);
      return Optional.of(new TemperatureRange(one.getAsDouble(), one.getAsDouble()));
    }
    return root.optionalSection(AMBIENT).map(TemperatureReader::table);
  }

  private static boolean isOneWord(Object found) {
    return found instanceof Number || found instanceof String;
  }

  private static TemperatureRange table(TomlSection section) {
    double low = section.number("min", COLDEST, HOTTEST, CELSIUS);
    double high = section.number("max", COLDEST, HOTTEST, CELSIUS);
    if (low > high && section.has("max")) {
      section.mistake("max", "must not be below min");
    }
    section.noOtherKeys();
    return new TemperatureRange(low, Math.max(low, high));
  }

  /** The temperatures at which an instrument's accuracy holds. */
  static Optional<TemperatureRange> reference(TomlSection section) {
    OptionalDouble at = section.optionalNumber(REFERENCE, COLDEST, HOTTEST, CELSIUS);
    OptionalDouble range = section.optionalNumber(RANGE, 0, 100, "K");
    if (at.isPresent() != range.isPresent()) {
      section.mistake(
          at.isPresent() ? REFERENCE : RANGE,
          "is one of two: write both "
              + REFERENCE
              + " and "
              + RANGE
              + ", as \"23 °C ± 5 K\" of the data sheet");
      return Optional.empty();
    }
    return at.isPresent()
        ? Optional.of(
            new TemperatureRange(
                at.getAsDouble() - range.getAsDouble(), at.getAsDouble() + range.getAsDouble()))
        : Optional.empty();
  }

  /** A coefficient without temperatures is worth nothing, nor are temperatures without one. */
  static void check(TomlSection section, InstrumentSpec spec, Optional<TemperatureRange> ambient) {
    for (Map.Entry<Role, Channel> each : spec.channels().entrySet()) {
      Optional<TemperatureRange> holds = spec.holds(each.getKey());
      String table = each.getKey().table();
      if (!section.has(table)) {
        continue;
      }
      if (each.getValue().perKelvin().isPresent() && (holds.isEmpty() || ambient.isEmpty())) {
        section
            .section(table)
            .mistake(
                COEFFICIENT,
                "needs "
                    + (spec.certified(each.getKey())
                        ? "calibrated_at_c"
                        : REFERENCE + " and " + RANGE)
                    + " of the instrument, and "
                    + AMBIENT
                    + " of the bench");
      }
      double outside =
          ambient.isPresent() && holds.isPresent() ? holds.get().kelvinOutside(ambient.get()) : 0.0;
      if (outside > 0.0 && each.getValue().perKelvin().isEmpty()) {
        section
            .section(table)
            .mistake(
                COEFFICIENT,
                "is missing: the bench may be "
                    + Numbers.plain(outside)
                    + (spec.certified(each.getKey())
                        ? " K away from the temperature of the calibration; write "
                        : " K outside of the temperatures at which the accuracy holds; write ")
                    + AccuracyText.ALLOWED_PER_KELVIN);
      }
    }
  }
}
