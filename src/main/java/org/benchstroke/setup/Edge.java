package org.benchstroke.setup;

/**
 * Where a switch changed. Immutable.
 *
 * @param made whether it was made or released
 * @param byCam whether its cam was turned on a shaft that stood; else the shaft was turned
 * @param degrees the stem's angle then, °
 * @param halfDegrees half of what the stem turned between the two looks, °
 * @param expandedDegrees U for a coverage of 95 %, °; 0 if nothing states the reference's accuracy
 * @param degreesPerSecond how fast it was turned, °/s
 */
public record Edge(
    boolean made,
    boolean byCam,
    double degrees,
    double halfDegrees,
    double expandedDegrees,
    double degreesPerSecond) {}
