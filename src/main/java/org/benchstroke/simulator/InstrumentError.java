package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;

/**
 * What a channel of an instrument is off by on top of what its data sheet allows, and in what it
 * behaves otherwise: an instrument out of calibration, a worn one, or one that the bench file
 * describes wrongly. Immutable.
 *
 * @param on the instrument's name in the bench file
 * @param role the role whose channel it is
 * @param order in which order it really writes the bytes of its value, where the bench file says
 *     another; Modbus only
 * @param scale how many times as large a number it really writes as the bench file says, 1 if as it
 *     says, 0.001..1000; Modbus only
 * @param gainPercent what it makes or shows too much, % of the value, -20..20
 * @param offset what it makes or shows too much at every value, in the channel's unit, -100..100
 * @param manner in what it behaves otherwise
 */
public record InstrumentError(
    String on,
    Role role,
    Optional<Register.Order> order,
    double scale,
    double gainPercent,
    double offset,
    Manner manner) {
  private static final String TABLE = "instrument_error";

  /** The keys of a value that is off; a relay has none. */
  private static final List<String> OF_VALUES =
      List.of("word_order", "scale", "gain_pct", "offset");

  private static final Map<String, Role> ROLES = roles();

  private static final Map<String, Register.Order> ORDERS = orders();

  /** In the order in which messages name them. */
  private static Map<String, Register.Order> orders() {
    Map<String, Register.Order> orders = new LinkedHashMap<>();
    for (Register.Order order : Register.Order.values()) {
      orders.put(order.name(), order);
    }
    return orders;
  }

  /** In the order in which messages name them. */
  private static Map<String, Role> roles() {
    Map<String, Role> roles = new LinkedHashMap<>();
    for (Role role : Role.values()) {
      // A switch has no value that could be off, and nothing to be worn.
      if (role != Role.SWITCHES) {
        roles.put(role.key(), role);
      }
    }
    return roles;
  }

  /** The tables {@code [[instrument_error]]} of a simulation file. */
  static List<InstrumentError> read(TomlSection root) {
    List<InstrumentError> errors = new ArrayList<>();
    if (root.has(TABLE)) {
      for (TomlSection s : root.sections(TABLE)) {
        String on = s.text("on");
        Role role = s.choice("role", ROLES);
        if (role == Role.MOTOR_POWER) {
          OF_VALUES.stream()
              .filter(s::has)
              .forEach(key -> s.mistake(key, "is for roles with a value; a relay has none"));
        }
        double gain = s.optionalNumber("gain_pct", -20, 20, "%").orElse(0.0);
        double offset = s.optionalNumber("offset", -100, 100, "in the channel's unit").orElse(0.0);
        Optional<Register.Order> order = s.optionalChoice("word_order", ORDERS);
        double scale = s.optionalNumber("scale", 0.001, 1000, "times").orElse(1.0);
        Manner manner = Manner.read(s, role);
        s.noOtherKeys();
        errors.add(new InstrumentError(on, role, order, scale, gain, offset, manner));
      }
    }
    return errors;
  }

  /** Whether the bench file says wrongly how a register is written. */
  private boolean miswritten() {
    return order.isPresent() || scale != 1.0;
  }

  /** How the instrument really writes what the bench file says so of. */
  Register written(Register said) {
    return new Register(
        said.table(),
        said.address(),
        said.written(),
        said.type(),
        order.orElse(said.order()),
        said.scale() / scale,
        said.offset(),
        said.guard());
  }

  /** Whether it is this instrument's. */
  boolean isOf(InstrumentSpec spec, Role of) {
    return on.equals(spec.name()) && role == of;
  }

  /** The mistakes of errors that no instrument of the bench can have. */
  static List<Mistake> missing(List<InstrumentError> errors, String benchName, BenchFile file) {
    List<Mistake> mistakes = new ArrayList<>();
    for (InstrumentError error : errors) {
      List<InstrumentSpec> there =
          file.instruments().stream()
              .filter(spec -> error.isOf(spec, error.role()))
              .filter(spec -> spec.roles().contains(error.role()))
              .toList();
      if (there.isEmpty()) {
        mistakes.add(new Mistake(benchName, 0, TABLE, error.missingFrom(file)));
      } else if (error.miswritten()
          && there.stream().allMatch(s -> s.talk(ModbusSettings.class).isEmpty())) {
        String why = "the simulation has word_order or scale on \"" + error.on() + "\"";
        mistakes.add(new Mistake(benchName, 0, TABLE, why + ", which has no registers"));
      }
    }
    return mistakes;
  }

  private String missingFrom(BenchFile file) {
    String names =
        file.instruments().stream()
            .filter(spec -> spec.roles().contains(role))
            .map(spec -> "\"" + spec.name() + "\"")
            .collect(Collectors.joining(", "));
    return "the simulation has one on \""
        + on
        + "\" as "
        + role.key()
        + ", but the bench has "
        + (names.isEmpty() ? "none" : names);
  }
}
