package org.benchstroke.core.model;

/**
 * The positioner on a pneumatic unit: its spool opens in proportion to the error, so that the
 * stroke integrates it. What it takes for its signal, how often it looks and its filter are in
 * {@link ControlParameters}. Immutable. Common practice, no source.
 *
 * @param gain opening of the spool for an error, % of full opening per % of span, 0.5..200
 * @param deadZonePercent the error within which the spool stays shut, % of span, either way, 0..10
 * @param cutOffPercent a setpoint so near an end drives fully to that end, % of span, 0..5; 0 means
 *     never
 */
public record PositionerParameters(double gain, double deadZonePercent, double cutOffPercent) {
  public PositionerParameters {
    Require.within("positioner gain, %/%,", gain, 0.5, 200);
    Require.within("positioner dead zone, %,", deadZonePercent, 0, 10);
    Require.within("cut-off, %,", cutOffPercent, 0, 5);
  }

  public static PositionerParameters baseline() {
    return new PositionerParameters(10.0, 0.1, 0.0);
  }

  public PositionerParameters withDeadZone(double percent) {
    return new PositionerParameters(gain, percent, cutOffPercent);
  }
}
