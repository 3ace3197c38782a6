package org.benchstroke.run;

import java.util.OptionalDouble;

/**
 * What a progress line shows.
 *
 * @param test the test under way
 * @param setpointPercent the setpoint in force, %
 * @param positionPercent the last position read, %; empty before the first and while a link is lost
 * @param state "moving", "settling", "at rest", "signal away", "link lost"
 * @param secondsLeft nominal bench time to the end of the run, s
 * @param done share of the run that is done, 0..1
 */
public record Progress(
    String test,
    double setpointPercent,
    OptionalDouble positionPercent,
    String state,
    double secondsLeft,
    double done) {}
