package org.benchstroke.core.model;

import net.jafama.StrictFastMath;

/** The load's torque: T_run + T_seat·exp(−θ/θ_s), less when closing. Common practice, no source. */
final class Load {
  private final LoadParameters parameters;
  private final double perSeat;
  private final double negligibleDegrees;

  Load(LoadParameters parameters) {
    this.parameters = parameters;
    this.perSeat = 1.0 / parameters.seatDegrees();
    this.negligibleDegrees = 12.0 * parameters.seatDegrees();
  }

  /** Torque at an angle, × rated. */
  double torque(double degrees, int direction) {
    double torque = parameters.runningTorque();
    if (degrees < negligibleDegrees) {
      torque += parameters.seatTorque() * StrictFastMath.exp(-Math.max(0.0, degrees) * perSeat);
    }
    return direction < 0 ? torque * parameters.closingShare() : torque;
  }
}
