package org.benchstroke.bench;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.scpi.ScpiHabits;
import org.benchstroke.io.transport.Endpoint;

/** Reads one instrument of a bench file. Stateless. */
final class InstrumentReader {
  private static final Set<Role> SCPI_ROLES =
      Set.of(Role.SIGNAL_SOURCE, Role.LOOP_METER, Role.SUPPLY_METER);

  /** Whether a supply meter is asked for an alternating voltage. */
  private static final String SUPPLY = "supply";

  private InstrumentReader() {}

  static InstrumentSpec read(TomlSection section, BenchLines lines) {
    String name = section.text("name");
    List<Role> roles = section.choices("roles", Words.of(Role.values(), Role::key));
    InstrumentSpec.Language speaks =
        section.choice(
            "speaks", Words.of(InstrumentSpec.Language.values(), InstrumentSpec.Language::key));
    boolean typed = speaks == InstrumentSpec.Language.TYPED_IN;
    Endpoint endpoint = typed ? new Endpoint.Display() : lines.endpointOf(section, speaks);
    double reply = typed ? 0.0 : section.number("reply_timeout_ms", 10, 60_000, "ms") / 1000.0;
    String maker = section.optionalText("maker").orElse("");
    String model = section.optionalText("model").orElse("");
    String serial = section.text("serial");
    InstrumentSpec.Calibration calibration = CalibrationReader.read(section);
    Map<Role, Channel> channels =
        ChannelReader.channels(section, roles, role -> otherKeys(speaks, role));
    Talk talk = talk(section, speaks, roles, channels);
    OptionalDouble volts = ChannelReader.compliance(section, roles);
    Optional<Mounting> mounting = MountingReader.read(section, roles);
    CalibrationReader.check(section, calibration, channels);
    section.noOtherKeys();
    return new InstrumentSpec(
        name,
        roles.isEmpty() ? Set.of(Role.SIGNAL_SOURCE) : Set.copyOf(roles),
        talk,
        endpoint,
        reply,
        maker,
        model,
        serial,
        calibration,
        channels,
        volts,
        mounting);
  }

  private static Talk talk(
      TomlSection section,
      InstrumentSpec.Language speaks,
      List<Role> roles,
      Map<Role, Channel> channels) {
    return switch (speaks) {
      case SCPI -> scpi(section, roles);
      case MODBUS_TCP, MODBUS_RTU -> ModbusMapReader.read(section, roles, speaks);
      case LINE -> new Talk.Line(LineWordsReader.read(section, roles));
      case TYPED_IN -> TypedInReader.read(section, roles, channels);
    };
  }

  private static Talk.Scpi scpi(TomlSection section, List<Role> roles) {
    refuseForScpi(section, roles);
    return new Talk.Scpi(
        section.optionalSection("talk").map(LineTalkReader::scpi).orElse(ScpiHabits.USUAL),
        alternating(section, roles));
  }

  private static boolean alternating(TomlSection section, List<Role> roles) {
    String table = Role.SUPPLY_METER.table();
    return roles.contains(Role.SUPPLY_METER)
        && section.has(table)
        && section.section(table).choice(SUPPLY, Map.of("ac", true, "dc", false));
  }

  /** The keys that stand in a channel's table beside those of the data sheet. */
  private static List<String> otherKeys(InstrumentSpec.Language speaks, Role role) {
    return switch (speaks) {
      case SCPI -> role == Role.SUPPLY_METER ? List.of(SUPPLY) : List.of();
      case MODBUS_TCP, MODBUS_RTU -> RegisterReader.keys(role);
      case LINE -> LineWordsReader.keys(role);
      case TYPED_IN -> TypedInReader.keys(role);
    };
  }

  private static void refuseForScpi(TomlSection section, List<Role> roles) {
    for (Role role : roles) {
      if (!SCPI_ROLES.contains(role)) {
        section.mistake(
            "roles",
            "\"" + role.key() + "\" can't be played over scpi; use a modbus or a line instrument");
      }
    }
  }
}
