package org.benchstroke.analysis;

/**
 * One position reading at rest: the mean of the last samples of a quiet window.
 *
 * @param setpointPercent the setpoint, % of travel
 * @param direction from which side it was approached
 * @param cycle from 1
 * @param meanPercent mean of the samples, % of travel
 * @param deviationPercent their standard deviation (n − 1), %
 * @param samples how many, n ≥ 2
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
