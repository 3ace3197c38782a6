package org.benchstroke.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;

/** Reads what is said of an instrument without a port, which a person sets or reads. Stateless. */
final class DisplayReader {
  private static final String SCATTER = "scatter_";

  /** What is read again and again at rest, so that the scatter of one reading must be known. */
  private static final Set<Role> SCATTERED =
      Set.of(Role.ANGLE_REFERENCE, Role.POSITION_TRANSMITTER);

  private static final double LARGEST_SCATTER = 10.0;

  /** The keys beside those of the channel. */
  static List<String> keys(Role role) {
    return switch (role) {
      case ANGLE_REFERENCE -> List.of(SCATTER + "deg");
      case POSITION_TRANSMITTER -> List.of(SCATTER + "pct", SCATTER + "mA");
      default -> List.of();
    };
  }

  private DisplayReader() {}

  static DisplaySettings read(TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    checkRoles(section, roles);
    double scatter = scatter(section, roles, channels);
    checkSteps(section, channels);
    return new DisplaySettings(scatter, switches(section, roles));
  }

  /** Refuses what a person can't be. */
  private static void checkRoles(TomlSection section, List<Role> roles) {
    if (roles.contains(Role.MOTOR_POWER)) {
      section.mistake(
          "roles",
          "\"motor power\" can't be typed in: without a relay the program asks for it anyway; leave"
              + " it out");
    }
    if (roles.stream().filter(SCATTERED::contains).count() > 1) {
      section.mistake(
          "roles", "one display shows one thing; describe the angle reference by itself");
    }
  }

  /** The standard deviation of one reading, in the channel's unit; 0 where its step is enough. */
  private static double scatter(
      TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    for (Role role : roles) {
      if (SCATTERED.contains(role) && channels.containsKey(role)) {
        String unit = channels.get(role).unit();
        TomlSection table = section.section(role.table());
        String key = SCATTER + (unit.equals("%") ? "pct" : unit);
        for (String other : keys(role)) {
          if (!other.equals(key) && table.has(other)) {
            table.mistake(other, "is in another unit than the display; write " + key);
          }
        }
        return table.number(key, 0.0001, LARGEST_SCATTER, unit);
      }
    }
    return 0.0;
  }

  /** A display that is read by eye has a step, and it is the uncertainty of a reading. */
  private static void checkSteps(TomlSection section, Map<Role, Channel> channels) {
    for (Map.Entry<Role, Channel> each : channels.entrySet()) {
      if (!section.has(each.getKey().table())) {
        continue;
      }
      TomlSection table = section.section(each.getKey().table());
      String unit = each.getValue().unit();
      String key = "resolution_" + (unit.equals("%") ? "pct" : unit);
      if (table.has(key) && each.getValue().resolution() == 0.0) {
        table.mistake(key, "must be above 0: a display that is read by eye has a step");
      }
    }
  }

  /** The switches that a person looks at. */
  private static List<LimitSwitch> switches(TomlSection section, List<Role> roles) {
    if (!roles.contains(Role.SWITCHES)) {
      return List.of();
    }
    TomlSection table = section.section(Role.SWITCHES.table());
    List<LimitSwitch> looked =
        new ArrayList<>(
            table.choices("looked_at", Words.of(LimitSwitch.values(), LimitSwitch::key)));
    table.noOtherKeys();
    return looked;
  }
}
