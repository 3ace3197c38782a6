package org.benchstroke.bench;

import java.util.List;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.Role;

/** Reads what is said of an instrument that a person reads by eye. Stateless. */
final class TypedInReader {
  private static final String SCATTER = "scatter_deg";

  /** The keys beside those of the channel. */
  static final List<String> CHANNEL_KEYS = List.of(SCATTER);

  private TypedInReader() {}

  /** The standard deviation of one reading, in °. */
  static double scatter(TomlSection section, List<Role> roles) {
    for (Role role : roles) {
      if (role != Role.ANGLE_REFERENCE) {
        section.mistake(
            "roles",
            "\""
                + role.key()
                + "\" can't be typed in: it is needed faster than a person reads;"
                + " only \""
                + Role.ANGLE_REFERENCE.key()
                + "\" can");
      }
    }
    return roles.contains(Role.ANGLE_REFERENCE)
        ? section.section(Words.table(Role.ANGLE_REFERENCE)).number(SCATTER, 0.0001, 10, "deg")
        : 0.0;
  }
}
