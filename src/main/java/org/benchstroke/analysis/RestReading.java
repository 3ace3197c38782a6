package org.benchstroke.analysis;

/**
 * One position reading at rest: the mean of the last samples of a quiet window, or one reading by
 * eye.
 *
 * @param setpointPercent the setpoint, % of travel
 * @param direction from which side it was approached
 * @param cycle from 1
 * @param meanPercent mean of the samples, % of travel
 * @param deviationPercent their standard deviation (n − 1), %; 0 with one reading, whose scatter
 *     must be known otherwise
 * @param samples how many
 */
public record RestReading(
    double setpointPercent,
    Direction direction,
    int cycle,
    double meanPercent,
    double deviationPercent,
    int samples) {
  /** Signed error: position − setpoint, %. */
  public double errorPercent() {
    return meanPercent - setpointPercent;
  }
}
