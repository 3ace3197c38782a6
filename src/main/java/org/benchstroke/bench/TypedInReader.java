package org.benchstroke.bench;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.benchstroke.bench.toml.TomlSection;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Role;

/** Reads what is said of an instrument that a person reads by eye. Stateless. */
final class TypedInReader {
  private static final String SCATTER = "scatter_deg";
  private static final String STEP = "resolution_mA";

  /** What is read at rest: the stem at each point, the loop before anything moves. */
  private static final Set<Role> READABLE = Set.of(Role.ANGLE_REFERENCE, Role.LOOP_METER);

  /** The keys beside those of the channel. */
  static final List<String> CHANNEL_KEYS = List.of(SCATTER);

  private TypedInReader() {}

  /** The standard deviation of one reading, in °; 0 where its step is all that counts. */
  static double scatter(TomlSection section, List<Role> roles) {
    for (Role role : roles) {
      if (!READABLE.contains(role)) {
        section.mistake(
            "roles",
            "\""
                + role.key()
                + "\" can't be typed in: it is needed faster than a person reads;"
                + " only \""
                + Role.ANGLE_REFERENCE.key()
                + "\" and \""
                + Role.LOOP_METER.key()
                + "\" can");
      }
    }
    return roles.contains(Role.ANGLE_REFERENCE)
        ? section.section(Words.table(Role.ANGLE_REFERENCE)).number(SCATTER, 0.0001, 10, "deg")
        : 0.0;
  }

  /** Of a loop meter that is read by eye its step is the uncertainty, so there must be one. */
  static void checkLoopMeter(TomlSection section, Map<Role, Channel> channels) {
    Channel channel = channels.get(Role.LOOP_METER);
    if (channel == null || !section.has(Words.table(Role.LOOP_METER))) {
      return;
    }
    TomlSection meter = section.section(Words.table(Role.LOOP_METER));
    if (meter.has(STEP) && channel.resolution() == 0.0) {
      meter.mistake(STEP, "must be above 0: a display that is read by eye has a step");
    }
    if (meter.has(SCATTER)) {
      meter.mistake(SCATTER, "is for an angle reference; of a loop meter the step is enough");
    }
  }
}
