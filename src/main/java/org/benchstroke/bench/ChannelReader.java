package org.benchstroke.bench;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;

/** Reads what an instrument's data sheet says of its channels. Stateless. */
final class ChannelReader {
  private static final Set<Role> MEASURING =
      Set.of(
          Role.SIGNAL_SOURCE,
          Role.LOOP_METER,
          Role.POSITION_TRANSMITTER,
          Role.ANGLE_REFERENCE,
          Role.SUPPLY_METER);

  private ChannelReader() {}

  /** The channel of each role that measures or sources. */
  static Map<Role, Channel> channels(
      TomlSection section, List<Role> roles, Function<Role, List<String>> otherKeys) {
    Map<Role, Channel> channels = new EnumMap<>(Role.class);
    for (Role role : roles) {
      if (MEASURING.contains(role)) {
        channels.put(role, channel(section.section(role.table()), role, otherKeys.apply(role)));
      }
    }
    return channels;
  }

  private static Channel channel(TomlSection table, Role role, List<String> otherKeys) {
    String unit = unit(table, role);
    String suffix = unit.equals("%") ? "pct" : unit;
    boolean source = role == Role.SIGNAL_SOURCE;
    OptionalDouble low = end(table, "min_" + suffix, source, unit);
    OptionalDouble high = end(table, "max_" + suffix, source, unit);
    if (source) {
      table.has("compliance_V");
    }
    boolean both = low.isPresent() && high.isPresent();
    if (both && low.getAsDouble() >= high.getAsDouble() && table.has("max_" + suffix)) {
      table.mistake("max_" + suffix, "must be above min_" + suffix);
    }
    double width = both ? high.getAsDouble() - low.getAsDouble() : Double.NaN;
    Accuracy accuracy = accuracy(table, unit, width);
    Optional<Accuracy> perKelvin =
        change(
            table,
            "temperature_coefficient",
            AccuracyText.ALLOWED_PER_KELVIN,
            found -> AccuracyText.parsePerKelvin(found, unit, width));
    Optional<Accuracy> perYear =
        change(
            table,
            "drift_per_year",
            AccuracyText.ALLOWED,
            found -> AccuracyText.parse(found, unit, width));
    double resolution = table.number("resolution_" + suffix, 0, 100, unit);
    Optional<CertifiedPoints> certified = CertifiedReader.read(table, suffix, unit);
    if (role == Role.ANGLE_REFERENCE) {
      table.has(MountingReader.TABLE);
    }
    otherKeys.forEach(table::has);
    table.noOtherKeys();
    return new Channel(unit, accuracy, resolution, low, high, perKelvin, perYear, certified);
  }

  private static String unit(TomlSection table, Role role) {
    return switch (role) {
      case ANGLE_REFERENCE -> "deg";
      case SUPPLY_METER -> "V";
      case POSITION_TRANSMITTER ->
          table.choice("unit", Words.of(new String[] {"mA", "%"}, Function.identity()));
      default -> "mA";
    };
  }

  private static Accuracy accuracy(TomlSection table, String unit, double width) {
    String text = table.text("accuracy");
    Optional<Accuracy> accuracy = AccuracyText.parse(text, unit, width);
    if (accuracy.isEmpty() && !text.isEmpty()) {
      table.mistake(
          "accuracy",
          "found \""
              + text
              + "\", allowed is "
              + AccuracyText.ALLOWED
              + " in "
              + unit
              + "; a share of range needs min and max");
    }
    return accuracy.orElse(new Accuracy(0, 0, 0, 0));
  }

  /** What changes the accuracy, if it is stated. */
  private static Optional<Accuracy> change(
      TomlSection table, String key, String allowed, Function<String, Optional<Accuracy>> parse) {
    Optional<String> text = table.optionalText(key);
    Optional<Accuracy> found = text.flatMap(parse);
    if (text.isPresent() && found.isEmpty()) {
      table.mistake(key, "found \"" + text.get() + "\", allowed is " + allowed);
    }
    return found;
  }

  /** The voltage of a source, if it plays that role and states it. */
  static OptionalDouble compliance(TomlSection section, List<Role> roles) {
    if (!roles.contains(Role.SIGNAL_SOURCE) || !section.has(Role.SIGNAL_SOURCE.table())) {
      return OptionalDouble.empty();
    }
    return section.section(Role.SIGNAL_SOURCE.table()).optionalNumber("compliance_V", 1, 200, "V");
  }

  /** An end of a channel: a source must state what it can make, a meter need not. */
  private static OptionalDouble end(TomlSection table, String key, boolean source, String unit) {
    return source
        ? OptionalDouble.of(table.number(key, 0, 100, unit))
        : table.optionalNumber(key, -1e4, 1e4, unit);
  }
}
