package org.benchstroke.bench;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Role;
import org.benchstroke.instrument.modbus.Register;

/** Reads the register map of a Modbus instrument. Stateless. */
final class ModbusMapReader {
  /** The keys of a register, which stand in the same table as its channel's. */
  static final List<String> REGISTER_KEYS =
      List.of("table", "address", "type", "order", "scale", "offset");

  private static final Register.Table[] BITS = {Register.Table.DISCRETE, Register.Table.COIL};
  private static final Register.Table[] WORDS = {Register.Table.INPUT, Register.Table.HOLDING};

  private ModbusMapReader() {}

  static InstrumentSpec.ModbusMap read(TomlSection section, List<Role> roles) {
    int unitId = section.integer("unit_id", 0, 255);
    Map<Role, Register> registers = new EnumMap<>(Role.class);
    Map<LimitSwitch, Register> switches = new EnumMap<>(LimitSwitch.class);
    for (Role role : roles) {
      switch (role) {
        case SWITCHES -> switches.putAll(switches(section.section("switches")));
        case MOTOR_POWER -> {
          TomlSection table = section.section(Words.table(role));
          registers.put(role, registerOf(table, Register.Table.COIL));
          table.noOtherKeys();
        }
        case SIGNAL_SOURCE ->
            section.mistake(
                "roles", "\"signal source\" can't be played over modbus; use an scpi instrument");
        case LOOP_METER, POSITION_TRANSMITTER, ANGLE_REFERENCE ->
            registers.put(role, registerOf(section.section(Words.table(role)), WORDS));
      }
    }
    Optional<Register> serial =
        section
            .optionalSection("serial_number")
            .map(
                table -> {
                  Register register = registerOf(table, WORDS);
                  if (register.type() == Register.Type.F32) {
                    table.mistake("type", "a serial number is a whole number; not f32");
                  }
                  table.noOtherKeys();
                  return register;
                });
    return new InstrumentSpec.ModbusMap(unitId, registers, switches, serial);
  }

  private static Map<LimitSwitch, Register> switches(TomlSection section) {
    Map<LimitSwitch, Register> switches = new EnumMap<>(LimitSwitch.class);
    for (LimitSwitch each : LimitSwitch.values()) {
      section
          .optionalSection(each.key())
          .ifPresent(
              table -> {
                switches.put(each, registerOf(table, BITS));
                table.noOtherKeys();
              });
    }
    section.noOtherKeys();
    if (switches.isEmpty()) {
      section.mistake("", "names no switch; add a table such as [instrument.switches.closed]");
    }
    return switches;
  }

  private static Register registerOf(TomlSection section, Register.Table... tables) {
    Register.Table table = section.choice("table", Words.of(tables, Register.Table::key));
    int address = section.integer("address", 0, 65535);
    Register.Type type = Register.Type.BIT;
    Register.Order order = Register.Order.ABCD;
    double scale = 1.0;
    double offset = 0.0;
    if (!table.bits()) {
      Map<String, Register.Type> types = Words.of(Register.Type.values(), Register.Type::key);
      types.remove(Register.Type.BIT.key());
      type = section.choice("type", types);
      order =
          section
              .optionalChoice("order", Words.of(Register.Order.values(), Enum::name))
              .orElse(order);
      scale = section.optionalNumber("scale", -1e9, 1e9, "per count").orElse(scale);
      offset = section.optionalNumber("offset", -1e9, 1e9, "").orElse(offset);
      if (scale == 0.0) {
        section.mistake(
            "scale", "is 0, so every reading would be the same; write what one count is");
      }
      if (address + type.words() > 65536) {
        section.mistake("address", "leaves no room for a " + type.key() + "; the last is 65535");
        address = 0;
      }
    }
    return new Register(table, address, type, order, scale, offset);
  }
}
