package org.benchstroke.core.model;

/**
 * The air that a pneumatic unit is fed with; pressures above that of the room. Immutable. Common
 * practice, no source.
 *
 * @param supplyBar what the regulator is set to, bar, 0..10
 * @param ratedBar the pressure at which the actuator has its times, bar, 1..10
 * @param regulatorSeconds how fast the regulator brings a drained supply back, time constant, s,
 *     0.001..60
 * @param capacityRatio volume of the line and filter behind the regulator, × the volume that the
 *     actuator sweeps, 0.1..1000
 * @param pilotBar the pressure below which a positioner can't hold its spool and vents, bar, 0..3
 */
public record AirParameters(
    double supplyBar,
    double ratedBar,
    double regulatorSeconds,
    double capacityRatio,
    double pilotBar) {
  public AirParameters {
    Require.within("supply pressure, bar,", supplyBar, 0, 10);
    Require.within("rated pressure, bar,", ratedBar, 1, 10);
    Require.within("regulator's time constant, s,", regulatorSeconds, 0.001, 60);
    Require.within("capacity, × swept volume,", capacityRatio, 0.1, 1000);
    Require.within("pilot pressure, bar,", pilotBar, 0, 3);
  }

  static AirParameters baseline() {
    return new AirParameters(5.5, 5.5, 0.2, 2.0, 1.4);
  }

  public AirParameters withSupply(double bar) {
    return new AirParameters(bar, ratedBar, regulatorSeconds, capacityRatio, pilotBar);
  }
}
