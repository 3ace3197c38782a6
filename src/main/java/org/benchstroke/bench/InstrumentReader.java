package org.benchstroke.bench;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Role;
import org.benchstroke.instrument.modbus.Register;
import org.benchstroke.quantity.Accuracy;
import org.benchstroke.transport.Endpoint;

/** Reads one instrument of a bench file. Stateless. */
final class InstrumentReader {
  private static final Pattern TCP = Pattern.compile("tcp://([A-Za-z0-9._-]+):([0-9]{1,5})");
  private static final Endpoint NOWHERE = new Endpoint.Tcp("localhost", 1);
  private static final Set<Role> MEASURING =
      Set.of(Role.SIGNAL_SOURCE, Role.LOOP_METER, Role.POSITION_TRANSMITTER, Role.ANGLE_REFERENCE);

  private static final Register.Table[] BITS = {Register.Table.DISCRETE, Register.Table.COIL};
  private static final Register.Table[] WORDS = {Register.Table.INPUT, Register.Table.HOLDING};
  private static final List<String> REGISTER_KEYS =
      List.of("table", "address", "type", "order", "scale", "offset");

  private InstrumentReader() {}

  static InstrumentSpec read(TomlSection section) {
    String name = section.text("name");
    List<Role> roles = section.choices("roles", byKey(Role.values(), Role::key));
    InstrumentSpec.Language speaks =
        section.choice(
            "speaks", byKey(InstrumentSpec.Language.values(), InstrumentSpec.Language::key));
    Endpoint endpoint = endpoint(section);
    double reply = section.number("reply_timeout_ms", 10, 60_000, "ms") / 1000.0;
    String maker = section.optionalText("maker").orElse("");
    String model = section.optionalText("model").orElse("");
    String serial = section.text("serial");
    InstrumentSpec.Calibration calibration = calibration(section);
    boolean modbus = speaks == InstrumentSpec.Language.MODBUS_TCP;
    Optional<InstrumentSpec.ModbusMap> map =
        modbus ? Optional.of(modbusMap(section, roles)) : Optional.empty();
    if (!modbus) {
      refuseForScpi(section, roles);
    }
    Map<Role, Channel> channels = channels(section, roles, modbus);
    OptionalDouble volts = compliance(section, roles);
    section.noOtherKeys();
    return new InstrumentSpec(
        name,
        roles.isEmpty() ? Set.of(Role.SIGNAL_SOURCE) : Set.copyOf(roles),
        speaks,
        endpoint,
        reply,
        maker,
        model,
        serial,
        calibration,
        channels,
        volts,
        map);
  }

  private static void refuseForScpi(TomlSection section, List<Role> roles) {
    for (Role role : roles) {
      if (role != Role.SIGNAL_SOURCE && role != Role.LOOP_METER) {
        section.mistake(
            "roles", "\"" + role.key() + "\" can't be played over scpi; use a modbus instrument");
      }
    }
  }

  private static Endpoint endpoint(TomlSection section) {
    String address = section.text("address");
    Matcher tcp = TCP.matcher(address);
    if (tcp.matches()) {
      int port = Integer.parseInt(tcp.group(2));
      if (port >= 1 && port <= 65535) {
        return new Endpoint.Tcp(tcp.group(1), port);
      }
    }
    if (!address.isEmpty()) {
      section.mistake(
          "address", "found \"" + address + "\", allowed is \"tcp://host:port\", port 1 to 65535");
    }
    return NOWHERE;
  }

  private static InstrumentSpec.Calibration calibration(TomlSection section) {
    String certificate = section.text("certificate");
    var calibrated = section.date("calibrated");
    var due = section.date("due");
    if (due.isBefore(calibrated) && section.has("due") && section.has("calibrated")) {
      section.mistake("due", "is before the day of calibration; check both days");
    }
    return new InstrumentSpec.Calibration(certificate, calibrated, due);
  }

  private static Map<Role, Channel> channels(
      TomlSection section, List<Role> roles, boolean modbus) {
    Map<Role, Channel> channels = new EnumMap<>(Role.class);
    for (Role role : roles) {
      if (MEASURING.contains(role)) {
        channels.put(role, channel(section.section(tableOf(role)), role, modbus));
      }
    }
    return channels;
  }

  private static Channel channel(TomlSection table, Role role, boolean modbus) {
    String unit =
        switch (role) {
          case ANGLE_REFERENCE -> "deg";
          case POSITION_TRANSMITTER ->
              table.choice("unit", byKey(new String[] {"mA", "%"}, Function.identity()));
          default -> "mA";
        };
    String suffix = unit.equals("%") ? "pct" : unit;
    OptionalDouble low = table.optionalNumber("min_" + suffix, -1e4, 1e4, unit);
    OptionalDouble high = table.optionalNumber("max_" + suffix, -1e4, 1e4, unit);
    if (role == Role.SIGNAL_SOURCE) {
      low = OptionalDouble.of(table.number("min_mA", 0, 100, "mA"));
      high = OptionalDouble.of(table.number("max_mA", 0, 100, "mA"));
      table.has("compliance_V");
    }
    boolean both = low.isPresent() && high.isPresent();
    if (both && low.getAsDouble() >= high.getAsDouble() && table.has("max_" + suffix)) {
      table.mistake("max_" + suffix, "must be above min_" + suffix);
    }
    double width = both ? high.getAsDouble() - low.getAsDouble() : Double.NaN;
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
    double resolution = table.number("resolution_" + suffix, 0, 100, unit);
    if (modbus) {
      REGISTER_KEYS.forEach(table::has);
    }
    table.noOtherKeys();
    return new Channel(unit, accuracy.orElse(new Accuracy(0, 0, 0, 0)), resolution, low, high);
  }

  private static OptionalDouble compliance(TomlSection section, List<Role> roles) {
    if (!roles.contains(Role.SIGNAL_SOURCE) || !section.has(tableOf(Role.SIGNAL_SOURCE))) {
      return OptionalDouble.empty();
    }
    return section.section(tableOf(Role.SIGNAL_SOURCE)).optionalNumber("compliance_V", 1, 200, "V");
  }

  private static InstrumentSpec.ModbusMap modbusMap(TomlSection section, List<Role> roles) {
    int unitId = section.integer("unit_id", 0, 255);
    Map<Role, Register> registers = new EnumMap<>(Role.class);
    Map<LimitSwitch, Register> switches = new EnumMap<>(LimitSwitch.class);
    for (Role role : roles) {
      switch (role) {
        case SWITCHES -> switches.putAll(switches(section.section("switches")));
        case MOTOR_POWER -> {
          TomlSection table = section.section(tableOf(role));
          registers.put(role, registerOf(table, Register.Table.COIL));
          table.noOtherKeys();
        }
        case SIGNAL_SOURCE ->
            section.mistake(
                "roles", "\"signal source\" can't be played over modbus; use an scpi instrument");
        case LOOP_METER, POSITION_TRANSMITTER, ANGLE_REFERENCE ->
            registers.put(role, registerOf(section.section(tableOf(role)), WORDS));
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
    Register.Table table = section.choice("table", byKey(tables, Register.Table::key));
    int address = section.integer("address", 0, 65535);
    Register.Type type = Register.Type.BIT;
    Register.Order order = Register.Order.ABCD;
    double scale = 1.0;
    double offset = 0.0;
    if (!table.bits()) {
      Map<String, Register.Type> types = byKey(Register.Type.values(), Register.Type::key);
      types.remove(Register.Type.BIT.key());
      type = section.choice("type", types);
      order =
          section.optionalChoice("order", byKey(Register.Order.values(), Enum::name)).orElse(order);
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

  private static String tableOf(Role role) {
    return role.key().replace(' ', '_');
  }

  private static <T> Map<String, T> byKey(T[] values, Function<T, String> key) {
    Map<String, T> map = new LinkedHashMap<>();
    for (T value : values) {
      map.put(key.apply(value), value);
    }
    return map;
  }
}
