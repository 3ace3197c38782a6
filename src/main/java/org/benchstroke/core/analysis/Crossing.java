package org.benchstroke.core.analysis;

/**
 * When a position crossed a level. Immutable.
 *
 * @param seconds the instant
 * @param intervalSeconds between the two samples around it
 * @param perPercent the instant's change per % of change of the level, s/%, ≥ 0
 * @param betweenHalfSeconds the bound of what the motion between two samples can change
 * @param noiseStandard by noise and rounding of the readings, s
 * @param stampHalfSeconds the bound of the stamps
 * @param before the index of the last sample before it
 */
record Crossing(
    double seconds,
    double intervalSeconds,
    double perPercent,
    double betweenHalfSeconds,
    double noiseStandard,
    double stampHalfSeconds,
    int before) {}
