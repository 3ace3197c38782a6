package org.benchstroke.bench;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Role;

/** Reads how an angle reference sits on the stem. Stateless. */
final class MountingReader {
  /** Its table within that of the angle reference. */
  static final String TABLE = "mounting";

  private static final String ECCENTRICITY = "eccentricity_mm";

  private MountingReader() {}

  /** The mounting, if the instrument is an angle reference and the table of that states it. */
  static Optional<Mounting> read(TomlSection instrument, List<Role> roles) {
    String reference = Role.ANGLE_REFERENCE.table();
    return roles.contains(Role.ANGLE_REFERENCE) && instrument.has(reference)
        ? instrument.section(reference).optionalSection(TABLE).map(MountingReader::mounting)
        : Optional.empty();
  }

  private static Mounting mounting(TomlSection section) {
    double radius = section.number("radius_mm", 0.1, 10_000, "mm");
    double eccentricity = section.number(ECCENTRICITY, 0, 1_000, "mm");
    double zero = section.number("zero_deg", 0, 90, "°");
    double coupling = section.number("coupling_deg", 0, 90, "°");
    section.noOtherKeys();
    if (eccentricity > 0.2 * radius && section.has(ECCENTRICITY)) {
      section.mistake(ECCENTRICITY, "must be at most a fifth of radius_mm; check both");
      return new Mounting(0.0, radius, zero, coupling);
    }
    return new Mounting(eccentricity, radius, zero, coupling);
  }
}
