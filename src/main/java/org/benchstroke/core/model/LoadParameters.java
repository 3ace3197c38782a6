package org.benchstroke.core.model;

/**
 * The torque that the valve asks for: the running torque, and more near the seat. Immutable.
 *
 * @param runningTorque × rated, 0..5 (usual 0.1..0.3)
 * @param seatTorque what comes on top at the seat, × rated, 0..5 (usual 0.5..1)
 * @param seatDegrees the angle over which it falls to 1/e, °, 0.5..45 (usual 3..8)
 * @param closingShare how much of the load remains when closing, 0..1 (usual 0.7..1)
 */
public record LoadParameters(
    double runningTorque, double seatTorque, double seatDegrees, double closingShare)
    implements ModelParameters.Part {
  public LoadParameters {
    Require.within("running torque, × rated,", runningTorque, 0, 5);
    Require.within("seat torque, × rated,", seatTorque, 0, 5);
    Require.within("seat angle, °,", seatDegrees, 0.5, 45);
    Require.within("closing share", closingShare, 0, 1);
  }

  static LoadParameters baseline() {
    return new LoadParameters(0.2, 0.6, 5.0, 0.85);
  }
}
