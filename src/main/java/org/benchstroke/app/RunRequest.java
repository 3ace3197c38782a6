package org.benchstroke.app;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.record.Event;

/**
 * What a run is asked for. Immutable.
 *
 * @param simulation the simulation file of a unit that is tested in this process, on a virtual
 *     clock; empty where instruments are reached over links
 * @param bench the bench file; with a simulation the one whose instruments are played, and empty
 *     for the built-in bench
 * @param unitType the unit type file; with a simulation it may be empty: the one that this names
 * @param procedure the procedure file
 * @param serial serial number of the unit
 * @param operator who runs the test
 * @param order the customer's order
 * @param job for whom, in what air and what the unit is, if anything was stated
 * @param supervisor who allows a further attempt, if anybody is named
 * @param shop what is the same for every run of the shop
 * @param resume the record of an interrupted run that is gone on with, if there is one
 * @param records the folder for records and reports
 * @param capture the folder for transcripts of the links, if they are wanted
 * @param timeScale how fast a simulation in this process is shown, bench seconds per second of the
 *     wall; empty for as fast as it goes. It changes nothing of the record
 */
public record RunRequest(
    Optional<Path> simulation,
    Optional<Path> bench,
    Optional<Path> unitType,
    Path procedure,
    String serial,
    String operator,
    String order,
    Optional<Event.Job> job,
    Optional<String> supervisor,
    Optional<ShopFile> shop,
    Optional<Path> resume,
    Path records,
    Optional<Path> capture,
    OptionalDouble timeScale) {
  /** The same, allowed by somebody. */
  RunRequest allowedBy(String name) {
    return new RunRequest(
        simulation,
        bench,
        unitType,
        procedure,
        serial,
        operator,
        order,
        job,
        Optional.of(name),
        shop,
        resume,
        records,
        capture,
        timeScale);
  }
}
