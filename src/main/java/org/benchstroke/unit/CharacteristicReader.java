package org.benchstroke.unit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Characteristic.Table;
import org.benchstroke.core.toml.TomlSection;

/** Reads the characteristic out of a unit type's table {@code [signal]}. Stateless. */
final class CharacteristicReader {
  private static final String KEY = "characteristic";

  private enum Kind {
    LINEAR,
    EQUAL_PERCENTAGE,
    TABLE
  }

  private CharacteristicReader() {}

  static Characteristic read(TomlSection signal) {
    Map<String, Kind> kinds = new LinkedHashMap<>();
    kinds.put("linear", Kind.LINEAR);
    kinds.put("equal percentage", Kind.EQUAL_PERCENTAGE);
    kinds.put("table", Kind.TABLE);
    Kind kind = signal.optionalChoice(KEY, kinds).orElse(Kind.LINEAR);
    OptionalDouble rangeability = signal.optionalNumber("rangeability", 2, 1000, "");
    List<Double> at = list(signal, "table_signal_pct", "% of signal");
    List<Double> travel = list(signal, "table_travel_pct", "% of travel");
    onlyWith(Kind.EQUAL_PERCENTAGE, kind, signal, "rangeability");
    onlyWith(Kind.TABLE, kind, signal, "table_signal_pct");
    onlyWith(Kind.TABLE, kind, signal, "table_travel_pct");
    return switch (kind) {
      case LINEAR -> Characteristic.linear();
      case EQUAL_PERCENTAGE -> equalPercentage(signal, rangeability);
      case TABLE -> table(signal, at, travel);
    };
  }

  private static List<Double> list(TomlSection signal, String key, String unit) {
    return signal.has(key) ? signal.numbers(key, 0, 100, unit) : List.of();
  }

  private static void onlyWith(Kind wanted, Kind found, TomlSection signal, String key) {
    if (signal.has(key) && wanted != found) {
      signal.mistake(key, "does not belong to the characteristic that is stated");
    }
  }

  private static Characteristic equalPercentage(TomlSection signal, OptionalDouble rangeability) {
    if (rangeability.isEmpty()) {
      if (!signal.has("rangeability")) {
        signal.mistake("rangeability", "is missing; an equal percentage characteristic needs it");
      }
      return Characteristic.linear();
    }
    return new Characteristic.EqualPercentage(rangeability.getAsDouble());
  }

  private static Characteristic table(TomlSection signal, List<Double> at, List<Double> travel) {
    List<Table.Point> points = new ArrayList<>();
    for (int i = 0; i < Math.min(at.size(), travel.size()); i++) {
      points.add(new Table.Point(at.get(i), travel.get(i)));
    }
    if (at.size() != travel.size() || !Table.sound(points)) {
      signal.mistake(
          "table_signal_pct",
          "and table_travel_pct need the same count of numbers, two or more, both rising, and the"
              + " signal from 0 to 100");
      return Characteristic.linear();
    }
    return new Table(points);
  }
}
