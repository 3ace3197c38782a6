package org.benchstroke.archive;

import java.time.Instant;
import java.util.Optional;

/**
 * A job: all runs of a unit for an order. Immutable.
 *
 * @param serial serial number of the unit
 * @param order the customer's order
 * @param simulated whether its unit was simulated; such runs are a job of their own
 * @param unitType the unit type of its last run
 * @param attempts how many runs
 * @param wholeAttempts how many of them were whole and valid
 * @param firstPass whether the first whole run passed; empty without a whole one
 * @param asFound the word of the first whole run
 * @param asLeft the word of the last whole run
 * @param first when the first run began
 * @param last when the last run began
 */
public record JobLine(
    String serial,
    String order,
    boolean simulated,
    String unitType,
    int attempts,
    int wholeAttempts,
    Optional<Boolean> firstPass,
    Optional<String> asFound,
    Optional<String> asLeft,
    Instant first,
    Instant last) {}
