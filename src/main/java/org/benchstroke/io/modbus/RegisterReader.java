package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Role;
import org.tomlj.TomlArray;

/** Reads where a value stands in a Modbus device. Stateless. */
final class RegisterReader {
  private static final List<String> NUMBER =
      List.of("table", "address", "type", "order", "scale", "offset");
  private static final List<String> WRITTEN = List.of("write_function", "output");
  private static final List<String> GUARDED = List.of("no_value", "plausible", "counter");

  static final Register.Table[] BITS = {Register.Table.DISCRETE, Register.Table.COIL};
  static final Register.Table[] WORDS = {Register.Table.INPUT, Register.Table.HOLDING};

  private RegisterReader() {}

  /** The keys of the role's register, which stand in the same table as its channel's. */
  static List<String> keys(Role role) {
    List<String> keys = new ArrayList<>(NUMBER);
    keys.addAll(role == Role.SIGNAL_SOURCE ? WRITTEN : GUARDED);
    return keys;
  }

  /** A bit: a table and an address alone. */
  static Register bit(TomlSection section, Register.Table... tables) {
    Register.Table table = section.choice("table", Words.of(tables, Register.Table::key));
    RegisterAddress address = RegisterAddress.read(section, table);
    return Register.bit(table, address.address(), address.written());
  }

  /** A number that is measured, with what its readings must keep to. */
  static Register measured(TomlSection section) {
    Register plain = number(section, WORDS);
    Guard guard = new Guard(noValue(section), plausible(section), counter(section, plain.table()));
    return new Register(
        plain.table(),
        plain.address(),
        plain.written(),
        plain.type(),
        plain.order(),
        plain.scale(),
        plain.offset(),
        guard);
  }

  /** A number with what one count is. */
  static Register number(TomlSection section, Register.Table... tables) {
    double scale = section.optionalNumber("scale", -1e9, 1e9, "per count").orElse(1.0);
    double offset = section.optionalNumber("offset", -1e9, 1e9, "").orElse(0.0);
    if (scale == 0.0) {
      section.mistake("scale", "is 0, so every reading would be the same; write what one count is");
    }
    return scaled(section, scale, offset, tables);
  }

  /** A number that counts nothing, such as a serial number: it has no scale. */
  static Register plain(TomlSection section, Register.Table... tables) {
    return scaled(section, 1.0, 0.0, tables);
  }

  private static Register scaled(
      TomlSection section, double scale, double offset, Register.Table... tables) {
    Register.Table table = section.choice("table", Words.of(tables, Register.Table::key));
    RegisterAddress address = RegisterAddress.read(section, table);
    Map<String, Register.Type> types = Words.of(Register.Type.values(), Register.Type::key);
    types.remove(Register.Type.BIT.key());
    Register.Type type = section.choice("type", types);
    Register.Order order =
        section
            .optionalChoice("order", Words.of(Register.Order.values(), Enum::name))
            .orElse(Register.Order.ABCD);
    int at = address.address();
    if (at + type.words() > 65536) {
      section.mistake("address", "leaves no room for a " + type.key() + "; the last is 65535");
      at = 0;
    }
    return new Register(table, at, address.written(), type, order, scale, offset, Guard.NONE);
  }

  private static List<Double> noValue(TomlSection section) {
    return section.has("no_value")
        ? numbers(section, "no_value", "numbers before scale and offset")
        : List.of();
  }

  private static Optional<Guard.Range> plausible(TomlSection section) {
    if (!section.has("plausible")) {
      return Optional.empty();
    }
    List<Double> ends = section.numbers("plausible", -1e12, 1e12, "");
    boolean two = ends.size() == 2 && ends.get(0) < ends.get(1);
    if (!two) {
      section.mistake("plausible", "write two numbers, [lowest, highest], in the value's unit");
      return Optional.empty();
    }
    return Optional.of(new Guard.Range(ends.get(0), ends.get(1)));
  }

  private static Optional<Guard.Counter> counter(TomlSection section, Register.Table beside) {
    return section
        .optionalSection("counter")
        .map(
            table -> {
              Register.Table where =
                  table
                      .optionalChoice("table", Words.of(WORDS, Register.Table::key))
                      .orElse(beside);
              RegisterAddress address = RegisterAddress.read(table, where);
              double seconds = table.number("frozen_after_ms", 10, 3.6e6, "ms") / 1000.0;
              table.noOtherKeys();
              Register register =
                  new Register(
                      where,
                      address.address(),
                      address.written(),
                      Register.Type.U16,
                      Register.Order.ABCD,
                      1.0,
                      0.0,
                      Guard.NONE);
              return new Guard.Counter(register, seconds);
            });
  }

  /** Unlike elsewhere, "not a number" may be meant: a float's way of saying that it has none. */
  private static List<Double> numbers(TomlSection section, String key, String what) {
    List<Double> numbers = new ArrayList<>();
    Object found = section.optional(key).orElse("");
    boolean sound = found instanceof TomlArray array && array.size() > 0;
    if (sound) {
      for (Object each : ((TomlArray) found).toList()) {
        sound &= each instanceof Number;
        numbers.add(each instanceof Number number ? number.doubleValue() : 0.0);
      }
    }
    if (!sound) {
      section.mistake(key, "allowed is a list of " + what + ", such as [32767] or [nan]");
    }
    return numbers;
  }

  /** Whether the value can be written there. */
  static boolean holds(Register register, double value) {
    try {
      return Registers.bytes(register, value).length > 0;
    } catch (IllegalArgumentException e) {
      return false;
    }
  }
}
