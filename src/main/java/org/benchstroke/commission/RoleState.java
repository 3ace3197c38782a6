package org.benchstroke.commission;

import java.util.OptionalDouble;
import org.benchstroke.io.instrument.Role;

/**
 * What is known of one role of a bench so far. Immutable.
 *
 * @param instrument the instrument that plays it
 * @param role the role
 * @param raw the last reply as it came; empty before the first
 * @param value the last value with its unit, or why there is none
 * @param saturated whether its last value was at an end of its range
 * @param percent the last position in % of travel, where it is one and the unit type is known
 * @param ageSeconds how long ago the last reply came, s of wall time
 * @param roundTripMillis how long the last exchange took, ms of wall time
 * @param longestMillis the longest so far
 * @param replies how many exchanges were sound
 * @param errors how many were not
 * @param differentReplies how many different raw replies came
 * @param lastError what went wrong last, and what to do; empty if nothing did
 */
public record RoleState(
    String instrument,
    Role role,
    String raw,
    String value,
    boolean saturated,
    OptionalDouble percent,
    OptionalDouble ageSeconds,
    OptionalDouble roundTripMillis,
    OptionalDouble longestMillis,
    int replies,
    int errors,
    int differentReplies,
    String lastError) {}
