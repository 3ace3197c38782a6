package org.benchstroke.core.model;

/**
 * Play on the way from motor to stem, total, not to either side. Immutable.
 *
 * @param gearPercent between motor and output shaft, % of span, 0..20
 * @param sensorPercent between the sensor and what it sits on, % of span, 0..20
 * @param couplingPercent between output shaft and stem: slack, % of span, 0..20
 */
public record PlayParameters(double gearPercent, double sensorPercent, double couplingPercent) {
  static final PlayParameters NONE = new PlayParameters(0.0, 0.0, 0.0);

  public PlayParameters {
    Require.within("gear play, %,", gearPercent, 0, 20);
    Require.within("sensor play, %,", sensorPercent, 0, 20);
    Require.within("coupling play, %,", couplingPercent, 0, 20);
  }

  /** Play in the gear alone. */
  public static PlayParameters ofGear(double percent) {
    return new PlayParameters(percent, 0.0, 0.0);
  }
}
