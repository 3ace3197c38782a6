package org.benchstroke.app.stations;

/**
 * A reading at rest that a test left behind on its way.
 *
 * @param setpointPercent where it should be, % of travel
 * @param percent where it was, % of travel
 * @param upward whether it came from below
 */
public record LeftBehind(double setpointPercent, double percent, boolean upward) {
  /** How far off it is, % of travel. */
  public double error() {
    return percent - setpointPercent;
  }
}
