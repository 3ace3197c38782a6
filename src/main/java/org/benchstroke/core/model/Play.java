package org.benchstroke.core.model;

/** Play: what is driven follows only once its driver has crossed the gap. */
final class Play {
  private final double half;
  private double driven;

  /**
   * Starts in the middle of its gap.
   *
   * @param gap the whole play, in the unit of the positions
   */
  Play(double gap, double position) {
    this.half = gap / 2.0;
    this.driven = position;
  }

  /** The driven position for the driver's. */
  double follow(double driver) {
    driven = Math.max(driver - half, Math.min(driver + half, driven));
    return driven;
  }
}
