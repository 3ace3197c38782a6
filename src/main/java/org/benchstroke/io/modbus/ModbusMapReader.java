package org.benchstroke.io.modbus;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;

/** Reads the register map of a Modbus instrument. One instrument, one thread. */
final class ModbusMapReader {
  private static final int SERIAL_LINE_LAST = 247;
  private static final int LAST = 255;

  private final TomlSection section;

  /** What stands where, by the table of the file that says so. */
  private final Map<String, Register> named = new LinkedHashMap<>();

  private ModbusMapReader(TomlSection section) {
    this.section = section;
  }

  static ModbusSettings tcp(TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    int unitId = section.integer("unit_id", 0, LAST);
    return new ModbusMapReader(section).read(ModbusSettings.TCP, unitId, roles);
  }

  static ModbusSettings rtu(TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    int unitId = section.integer("unit_id", 1, SERIAL_LINE_LAST);
    return new ModbusMapReader(section).read(ModbusSettings.RTU, unitId, roles);
  }

  private ModbusSettings read(Language language, int unitId, List<Role> roles) {
    Map<Role, Register> registers = new EnumMap<>(Role.class);
    Map<LimitSwitch, Register> switches = new EnumMap<>(LimitSwitch.class);
    SourceWiring wiring = SourceWiring.PLAIN;
    for (Role role : roles) {
      TomlSection table = section.section(role.table());
      switch (role) {
        case SWITCHES -> switches.putAll(switches(table));
        case MOTOR_POWER -> {
          registers.put(role, note(role, RegisterReader.bit(table, Register.Table.COIL)));
          table.noOtherKeys();
        }
        case SIGNAL_SOURCE -> {
          Register register = RegisterReader.number(table, Register.Table.HOLDING);
          registers.put(role, note(role, register));
          wiring = wiring(table, register);
        }
        case LOOP_METER, POSITION_TRANSMITTER, ANGLE_REFERENCE, SUPPLY_METER -> {
          Register register = note(role, RegisterReader.measured(table));
          register
              .guard()
              .counter()
              .ifPresent(c -> named.put(role.table() + ".counter", c.register()));
          registers.put(role, register);
        }
      }
    }
    Optional<Register> serial = section.optionalSection("serial_number").map(this::serialNumber);
    Optional<KeepAlive> keepAlive = section.optionalSection("keep_alive").map(this::keepAlive);
    noteClashes();
    return new ModbusSettings(language, unitId, registers, switches, serial, wiring, keepAlive);
  }

  private Register note(Role role, Register register) {
    named.put(role.table(), register);
    return register;
  }

  private Map<LimitSwitch, Register> switches(TomlSection table) {
    Map<LimitSwitch, Register> switches = new EnumMap<>(LimitSwitch.class);
    for (LimitSwitch each : LimitSwitch.values()) {
      table
          .optionalSection(each.key())
          .ifPresent(
              inner -> {
                switches.put(each, RegisterReader.bit(inner, RegisterReader.BITS));
                inner.noOtherKeys();
              });
    }
    table.noOtherKeys();
    if (switches.isEmpty()) {
      table.mistake("", "names no switch; add a table such as [instrument.switches.closed]");
    }
    return switches;
  }

  private SourceWiring wiring(TomlSection table, Register register) {
    for (String end : List.of("min_mA", "max_mA")) {
      double milliamps = table.optionalNumber(end, 0, 100, "mA").orElse(0.0);
      if (register.scale() != 0.0 && !RegisterReader.holds(register, milliamps)) {
        table.mistake(
            end, "a " + register.type().key() + " with this scale and offset can't hold it");
      }
    }
    boolean several = false;
    if (table.has("write_function")) {
      int function = table.integer("write_function", 6, 16);
      several = function == 16;
      if (function != 6 && function != 16) {
        table.mistake("write_function", "is 6 (one register) or 16 (several)");
      } else if (function == 6 && register.type().words() > 1) {
        table.mistake(
            "write_function",
            "6 writes one register, but a " + register.type().key() + " has more");
      }
    }
    Optional<Register> output =
        table
            .optionalSection("output")
            .map(
                inner -> {
                  Register coil = RegisterReader.bit(inner, Register.Table.COIL);
                  inner.noOtherKeys();
                  named.put("signal_source.output", coil);
                  return coil;
                });
    return new SourceWiring(several, output);
  }

  private Register serialNumber(TomlSection table) {
    Register register = RegisterReader.plain(table, RegisterReader.WORDS);
    if (register.type().real()) {
      table.mistake("type", "a serial number is a whole number; not " + register.type().key());
    }
    table.noOtherKeys();
    named.put("serial_number", register);
    return register;
  }

  private KeepAlive keepAlive(TomlSection table) {
    Register.Table[] writable = {Register.Table.HOLDING, Register.Table.COIL};
    Register.Table where = table.choice("table", Words.of(writable, Register.Table::key));
    RegisterAddress address = RegisterAddress.read(table, where);
    Register register =
        where.bits()
            ? Register.bit(where, address.address(), address.written())
            : new Register(
                where,
                address.address(),
                address.written(),
                Register.Type.U16,
                Register.Order.ABCD,
                1.0,
                0.0,
                Guard.NONE);
    double seconds = table.number("period_ms", 50, 600_000, "ms") / 1000.0;
    List<Double> values = table.numbers("values", 0, where.bits() ? 1 : 65_535, "");
    if (values.stream().anyMatch(v -> v != Math.rint(v))) {
      table.mistake("values", "are whole numbers: [1], or [0, 1] to alternate");
    }
    table.noOtherKeys();
    named.put("keep_alive", register);
    return new KeepAlive(register, seconds, values.isEmpty() ? List.of(1.0) : values);
  }

  /** Two values can't stand in one register, unless they are one value in two roles. */
  private void noteClashes() {
    List<Map.Entry<String, Register>> all = List.copyOf(named.entrySet());
    for (int i = 0; i < all.size(); i++) {
      for (int j = 0; j < i; j++) {
        Register here = all.get(i).getValue();
        Register there = all.get(j).getValue();
        if (here.clashesWith(there)) {
          section.mistake(
              all.get(i).getKey().replaceFirst("[.].*", ""),
              words(all.get(i))
                  + " overlaps "
                  + words(all.get(j))
                  + "; correct an address, or the type or order of one");
        }
      }
    }
  }

  private static String words(Map.Entry<String, Register> entry) {
    Register register = entry.getValue();
    int words = register.type().words();
    return entry.getKey().replace('_', ' ')
        + " at "
        + register.place()
        + (words > 1 ? " (" + register.type().key() + ", " + words + " registers)" : "");
  }
}
