package org.benchstroke.core.model;

/**
 * What is really so, which no instrument of a bench can see. Immutable.
 *
 * @param stemDegrees the stem's angle, °
 * @param stemPercent the same, % of span
 * @param outputPercent the output shaft, before the coupling, % of span
 * @param feedbackPercent what the feedback would show without noise, lag, clip and resolution, %
 * @param loopMilliamps the current in the loop, mA
 * @param direction where the motor is driven: 1 opens, −1 closes, 0 off
 */
public record Truth(
    double stemDegrees,
    double stemPercent,
    double outputPercent,
    double feedbackPercent,
    double loopMilliamps,
    int direction) {}
