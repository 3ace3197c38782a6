package org.benchstroke.aids.twin;

/**
 * How well the twin repeats the recorded moves. Immutable.
 *
 * @param moves how many moves it was fitted to
 * @param rmsPercent root of the mean square of measured − modelled, % of travel
 * @param noisePercent standard deviation of the feedback at rest, %
 * @param ratio the root of the mean square in units of what each sample may be off by: noise,
 *     scatter of the stops, and at speed what the instants are known to
 * @param stopScatterPercent standard deviation of one stop, %
 * @param mayScatterPercent the most that a controller that looks every 50 ms or more often explains
 */
public record Misfit(
    int moves,
    double rmsPercent,
    double noisePercent,
    double ratio,
    double stopScatterPercent,
    double mayScatterPercent) {
  /** Above this the model does not explain the unit: our own choice, beyond all sound units. */
  public static final double MOST = 1.6;

  /** Whether the model explains what was recorded. */
  public boolean explained() {
    return ratio <= MOST && stopScatterPercent <= mayScatterPercent;
  }
}
