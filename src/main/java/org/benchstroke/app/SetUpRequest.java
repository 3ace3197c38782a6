package org.benchstroke.app;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a set-up is asked for. Immutable.
 *
 * @param simulation the simulation file of a unit that is set up in this process, on a virtual
 *     clock; empty where instruments are reached over links
 * @param bench the bench file; with a simulation the one whose instruments are played
 * @param unitType the unit type file; with a simulation it may be empty
 * @param serial serial number of the unit
 * @param operator who sets it up
 * @param order the customer's order
 * @param records the folder for records
 * @param capture the folder for transcripts of the links, if they are wanted
 * @param timeScale how fast a simulation in this process is shown, bench seconds per second of the
 *     wall; empty for as fast as it goes
 */
public record SetUpRequest(
    Optional<Path> simulation,
    Optional<Path> bench,
    Optional<Path> unitType,
    String serial,
    String operator,
    String order,
    Path records,
    Optional<Path> capture,
    OptionalDouble timeScale) {}
