package org.benchstroke.setup;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.record.Event;

/** What was noted at a step, in words. Stateless. */
public final class SetUpWords {
  private static final Map<FieldKey, String> NAMES = names();

  private SetUpWords() {}

  private static Map<FieldKey, String> names() {
    Map<FieldKey, String> names = new EnumMap<>(FieldKey.class);
    names.put(FieldKey.STEM_MARK, "stem mark at closed");
    names.put(FieldKey.SHIELD, "shield earthed");
    names.put(FieldKey.SOURCE_SET, "source set by hand");
    names.put(FieldKey.RESULT, "the display said");
    names.put(FieldKey.FIRST_WAY, "went first");
    names.put(FieldKey.SOFTWARE, "software");
    names.put(FieldKey.LOSS_ACTION, "on loss of signal");
    names.put(FieldKey.DIRECTION, "direction");
    names.put(FieldKey.HEATER, "heater");
    names.put(FieldKey.HAND_WHEEL, "hand wheel released");
    return names;
  }

  /** Figures, then facts, in a line; empty if there are none. */
  public static String line(Event.SetUpStep step) {
    List<String> parts = new ArrayList<>();
    if (!step.reason().isEmpty()) {
      parts.add(step.reason());
    }
    parts.addAll(figures(step));
    for (FieldKey key : FieldKey.values()) {
      Optional.ofNullable(step.facts().get(key.key()))
          .ifPresent(said -> parts.add(NAMES.getOrDefault(key, key.key()) + " " + said));
    }
    return String.join(", ", parts);
  }

  private static List<String> figures(Event.SetUpStep step) {
    List<String> parts = new ArrayList<>();
    number(step, FieldKey.LOOP_OHM, 1).ifPresent(v -> parts.add("loop " + v + " Ω"));
    number(step, FieldKey.ANGLE_DEG, 1).ifPresent(v -> parts.add("at " + v + "°"));
    within(step, FieldKey.TRIP_DEG, FieldKey.TRIP_U_DEG).ifPresent(v -> parts.add("trips at " + v));
    within(step, FieldKey.RESET_DEG, FieldKey.RESET_U_DEG)
        .ifPresent(v -> parts.add("resets at " + v));
    number(step, FieldKey.DIFFERENTIAL_DEG, 1).ifPresent(v -> parts.add("differential " + v + "°"));
    within(step, FieldKey.LEAD_DEG, FieldKey.LEAD_U_DEG)
        .ifPresent(v -> parts.add(v + " before the end switch"));
    number(step, FieldKey.TURNS_BACK, 1).ifPresent(v -> parts.add(v + " turns back"));
    number(step, FieldKey.STOP_MARGIN_DEG, 1).ifPresent(v -> parts.add("margin " + v + "°"));
    number(step, FieldKey.CALIBRATION_S, 1).ifPresent(v -> parts.add("took " + v + " s"));
    range(step, FieldKey.LOWEST_DEG, FieldKey.HIGHEST_DEG, "°").ifPresent(parts::add);
    range(step, FieldKey.LOWEST_PCT, FieldKey.HIGHEST_PCT, " %").ifPresent(parts::add);
    number(step, FieldKey.VOLTAGE_V, 1).ifPresent(v -> parts.add(v + " V"));
    number(step, FieldKey.DEAD_BAND_PCT, 2).ifPresent(v -> parts.add("dead band " + v + " %"));
    return parts;
  }

  private static Optional<String> number(Event.SetUpStep step, FieldKey key, int decimals) {
    return Optional.ofNullable(step.figures().get(key.key())).map(v -> upTo(v, decimals));
  }

  private static String upTo(double value, int decimals) {
    return Numbers.upTo(value, decimals);
  }

  private static Optional<String> within(Event.SetUpStep step, FieldKey value, FieldKey expanded) {
    return Optional.ofNullable(step.figures().get(value.key()))
        .map(
            v -> {
              double half = step.figures().getOrDefault(expanded.key(), 0.0);
              return half > 0.0
                  ? Numbers.fixed(v, 1) + "° ± " + Numbers.fixed(half, half < 0.05 ? 2 : 1) + "°"
                  : Numbers.fixed(v, 1) + "°";
            });
  }

  private static Optional<String> range(
      Event.SetUpStep step, FieldKey low, FieldKey high, String unit) {
    return number(step, low, 1)
        .flatMap(l -> number(step, high, 1).map(h -> "between " + l + unit + " and " + h + unit));
  }
}
