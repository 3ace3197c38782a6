package org.benchstroke.core.analysis;

/**
 * One position reading at rest: the mean of the last samples of a quiet window, or one reading by
 * eye.
 *
 * @param setpointPercent the point of the test, % of travel
 * @param askedPercent what the signal asked for there, to its last digit, % of travel; where
 *     setpoints were measured each reading has its own
 * @param direction from which side it was approached
 * @param cycle from 1
 * @param meanPercent mean of the samples, % of travel
 * @param deviationPercent their standard deviation (n − 1), %; 0 with one reading, whose scatter
 *     must be known otherwise
 * @param samples how many
 */
public record RestReading(
    double setpointPercent,
    double askedPercent,
    Direction direction,
    int cycle,
    double meanPercent,
    double deviationPercent,
    int samples) {
  /** Where the signal asked for the point itself. */
  public RestReading(
      double setpointPercent,
      Direction direction,
      int cycle,
      double meanPercent,
      double deviationPercent,
      int samples) {
    this(
        setpointPercent, setpointPercent, direction, cycle, meanPercent, deviationPercent, samples);
  }

  /** Signed error: position − what the signal asked for, %. */
  public double errorPercent() {
    return meanPercent - askedPercent;
  }
}
