package org.benchstroke.simulator;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;

/**
 * In what an instrument behaves otherwise than its data sheet lets expect. Immutable.
 *
 * @param conversionSeconds how often it gets a new value, which stands in between, 0.01..10 s; 0 if
 *     whenever it is read
 * @param unevenness by how much a conversion comes early or late at most, twice that as a part of
 *     the time between two, 0..1
 * @param meanOf each value is the mean of so many conversions, 1..100
 * @param echo when a position transmitter shows the loop's current in place of the feedback
 * @param welded whether the contact of a relay for the motor supply stays closed, whatever its coil
 *     is told and says
 */
public record Manner(
    double conversionSeconds, double unevenness, int meanOf, Echo echo, boolean welded) {
  /** As a data sheet lets expect. */
  static final Manner USUAL = new Manner(0.0, 0.0, 1, Echo.NEVER, false);

  private static final String CONVERSION = "conversion_ms";
  private static final String UNEVEN = "conversion_uneven_pct";
  private static final String MEAN_OF = "mean_of";
  private static final String ECHO = "loop_echo";
  private static final String CONTACT = "contact";

  /** When a position transmitter shows the loop's current. */
  public enum Echo {
    NEVER("never"),
    WHILE_OFF("while off"),
    ALWAYS("always");

    private final String key;

    Echo(String key) {
      this.key = key;
    }
  }

  static Manner read(TomlSection s, Role role) {
    Map<String, Echo> echoes = new LinkedHashMap<>();
    for (Echo each : Echo.values()) {
      echoes.put(each.key, each);
    }
    Map<String, Boolean> contacts = new LinkedHashMap<>();
    contacts.put("works", false);
    contacts.put("welded", true);
    if (s.has(ECHO) && role != Role.POSITION_TRANSMITTER) {
      s.mistake(ECHO, "is for the role \"" + Role.POSITION_TRANSMITTER.key() + "\" alone");
    }
    if (s.has(CONTACT) != (role == Role.MOTOR_POWER)) {
      s.mistake(CONTACT, "is for the role \"" + Role.MOTOR_POWER.key() + "\", which needs it");
    }
    if (role == Role.SIGNAL_SOURCE || role == Role.MOTOR_POWER) {
      for (String key : List.of(CONVERSION, UNEVEN, MEAN_OF)) {
        if (s.has(key)) {
          s.mistake(key, "is for roles that measure alone");
        }
      }
    }
    double conversion = s.optionalNumber(CONVERSION, 10, 10_000, "ms").orElse(0.0) / 1000.0;
    int meanOf = s.integer(MEAN_OF, 1, 100, 1);
    if (meanOf > 1 && conversion == 0.0) {
      s.mistake(MEAN_OF, "needs " + CONVERSION + ", for it counts conversions");
    }
    double uneven = s.optionalNumber(UNEVEN, 0, 50, "%").orElse(0.0);
    if (uneven > 0.0 && conversion == 0.0) {
      s.mistake(UNEVEN, "needs " + CONVERSION + ", of which it is a part");
    }
    return new Manner(
        conversion,
        2.0 * uneven / 100.0,
        meanOf,
        s.optionalChoice(ECHO, echoes).orElse(Echo.NEVER),
        s.optionalChoice(CONTACT, contacts).orElse(false));
  }
}
