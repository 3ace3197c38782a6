package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.toml.Mistake;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.Role;

/**
 * What a channel of an instrument is off by on top of what its data sheet allows: an instrument out
 * of calibration. Immutable.
 *
 * @param on the instrument's name in the bench file
 * @param role the role whose channel it is
 * @param gainPercent what it makes or shows too much, % of the value, -20..20
 * @param offset what it makes or shows too much at every value, in the channel's unit, -100..100
 */
public record InstrumentError(String on, Role role, double gainPercent, double offset) {
  private static final String TABLE = "instrument_error";

  /** Switches and relays have no value that could be off. */
  private static final Set<Role> WITHOUT_VALUE = Set.of(Role.SWITCHES, Role.MOTOR_POWER);

  private static final Map<String, Role> ROLES = roles();

  /** In the order in which messages name them. */
  private static Map<String, Role> roles() {
    Map<String, Role> roles = new LinkedHashMap<>();
    for (Role role : Role.values()) {
      if (!WITHOUT_VALUE.contains(role)) {
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
        double gain = s.optionalNumber("gain_pct", -20, 20, "%").orElse(0.0);
        double offset = s.optionalNumber("offset", -100, 100, "in the channel's unit").orElse(0.0);
        s.noOtherKeys();
        errors.add(new InstrumentError(on, role, gain, offset));
      }
    }
    return errors;
  }

  /** Whether it is this instrument's. */
  boolean isOf(InstrumentSpec spec, Role of) {
    return on.equals(spec.name()) && role == of;
  }

  /** The mistakes of errors that no instrument of the bench can have. */
  static List<Mistake> missing(List<InstrumentError> errors, String benchName, BenchFile file) {
    List<Mistake> mistakes = new ArrayList<>();
    for (InstrumentError error : errors) {
      boolean there =
          file.instruments().stream()
              .anyMatch(
                  spec ->
                      error.isOf(spec, error.role()) && spec.channels().containsKey(error.role()));
      if (!there) {
        mistakes.add(new Mistake(benchName, 0, TABLE, error.missingFrom(file)));
      }
    }
    return mistakes;
  }

  private String missingFrom(BenchFile file) {
    String names =
        file.instruments().stream()
            .filter(spec -> spec.channels().containsKey(role))
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
