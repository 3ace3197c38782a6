package org.benchstroke.app.stations;

import java.nio.file.Path;
import java.util.Optional;

/**
 * What a person takes as the next job of a station.
 *
 * @param serial serial number of the unit, as scanned
 * @param order the customer's order
 * @param operator who tests it
 * @param unitType the unit type file; empty for the station's own
 * @param procedure the procedure file; empty for the station's own
 * @param supervisor who allows a further attempt, if anybody is named
 */
public record JobSheet(
    String serial,
    String order,
    String operator,
    Optional<Path> unitType,
    Optional<Path> procedure,
    Optional<String> supervisor) {
  /**
   * The same once more, not allowed by anybody yet.
   *
   * @param name who tests it now; blank for who did before
   */
  public JobSheet anew(String name) {
    return new JobSheet(
        serial, order, name.isBlank() ? operator : name, unitType, procedure, Optional.empty());
  }

  /** The same, allowed by somebody. */
  public JobSheet allowedBy(String name) {
    return new JobSheet(serial, order, operator, unitType, procedure, Optional.of(name));
  }
}
