package org.benchstroke.core.model;

/**
 * The motor with its gear and brake, as seen at the output shaft. Immutable.
 *
 * @param kind what its speed depends on
 * @param strokeSeconds time for 90° without load, s, 1..300 (usual 5..60)
 * @param runUpSeconds time constant of the run-up, s, 0.005..2 (usual 0.05..0.15)
 * @param brakeSeconds time constant of the coast, s, 0.005..2 (usual 0.01..0.15)
 * @param coastDegreesPerSecondSquared the part of the coast's slowing that does not depend on the
 *     speed, °/s², 0..500 (usual 20..60)
 * @param slip the speed lost at stall torque, 0..1 (usual 0.05..0.3)
 * @param stallTorque torque at which an AC motor stalls, × rated, 0.1..10
 * @param voltageRatio supply voltage, before the leads, × nominal, 0..1.5
 * @param leadsSwapped whether it turns the wrong way: its leads are swapped behind the end
 *     switches, so that those can't stop it either
 */
public record MotorParameters(
    Kind kind,
    double strokeSeconds,
    double runUpSeconds,
    double brakeSeconds,
    double coastDegreesPerSecondSquared,
    double slip,
    double stallTorque,
    double voltageRatio,
    boolean leadsSwapped)
    implements ModelParameters.Part {

  /** What the speed depends on. */
  public enum Kind {
    /** Nearly constant speed; torque goes with the square of the voltage. */
    AC("ac"),
    /** Speed goes with the voltage. */
    DC("dc");

    private final String key;

    Kind(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  public MotorParameters {
    Require.within("stroke time, s,", strokeSeconds, 1, 300);
    Require.within("run-up time constant, s,", runUpSeconds, 0.005, 2);
    Require.within("brake time constant, s,", brakeSeconds, 0.005, 2);
    Require.within("coast deceleration, °/s²,", coastDegreesPerSecondSquared, 0, 500);
    Require.within("slip", slip, 0, 1);
    Require.within("stall torque, × rated,", stallTorque, 0.1, 10);
    Require.within("voltage ratio", voltageRatio, 0, 1.5);
  }

  /** A motor that turns the right way. */
  public MotorParameters(
      Kind kind,
      double strokeSeconds,
      double runUpSeconds,
      double brakeSeconds,
      double coastDegreesPerSecondSquared,
      double slip,
      double stallTorque,
      double voltageRatio) {
    this(
        kind,
        strokeSeconds,
        runUpSeconds,
        brakeSeconds,
        coastDegreesPerSecondSquared,
        slip,
        stallTorque,
        voltageRatio,
        false);
  }

  static MotorParameters baseline() {
    return new MotorParameters(Kind.AC, 15.0, 0.08, 0.02, 60.0, 0.1, 2.0, 1.0);
  }

  public MotorParameters withStroke(double seconds) {
    return new MotorParameters(
        kind,
        seconds,
        runUpSeconds,
        brakeSeconds,
        coastDegreesPerSecondSquared,
        slip,
        stallTorque,
        voltageRatio,
        leadsSwapped);
  }

  public MotorParameters withLeads(boolean swapped) {
    return new MotorParameters(
        kind,
        strokeSeconds,
        runUpSeconds,
        brakeSeconds,
        coastDegreesPerSecondSquared,
        slip,
        stallTorque,
        voltageRatio,
        swapped);
  }

  public MotorParameters withBrake(double seconds, double degreesPerSecondSquared) {
    return new MotorParameters(
        kind,
        strokeSeconds,
        runUpSeconds,
        seconds,
        degreesPerSecondSquared,
        slip,
        stallTorque,
        voltageRatio,
        leadsSwapped);
  }
}
