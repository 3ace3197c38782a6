package org.benchstroke.core.model;

/** A switch on a cam: trips at its angle, resets a differential further back, bounces. */
final class CamSwitch {
  private final double sign;
  private final double differential;
  private double trip;
  private double reset;
  private final long bounceSteps;
  private boolean tripped;
  private long changedAt = Long.MIN_VALUE / 2;

  /**
   * A switch for one end.
   *
   * @param openEnd whether angles above the cam's trip it
   */
  CamSwitch(boolean openEnd, double camDegrees, CamParameters cams, double stepSeconds) {
    this.sign = openEnd ? 1.0 : -1.0;
    this.differential = cams.differentialDegrees();
    this.trip = sign * camDegrees;
    this.reset = trip - differential;
    this.bounceSteps = Math.round(cams.bounceSeconds() / stepSeconds);
  }

  /** Turns its shaft; to be called whenever that has turned. */
  void turn(double degrees, long step) {
    double along = sign * degrees;
    boolean now = tripped ? along > reset : along >= trip;
    changedAt = now == tripped ? changedAt : step;
    tripped = now;
  }

  /** Turns the cam on its shaft, which stands: from then on it trips at this angle. */
  void set(double camDegrees, double shaftDegrees, long step) {
    trip = sign * camDegrees;
    reset = trip - differential;
    turn(shaftDegrees, step);
  }

  /** The angle at which it trips, °. */
  double camDegrees() {
    return sign * trip;
  }

  /** Whether the cam holds it: what cuts the motor. */
  boolean tripped() {
    return tripped;
  }

  /** What its contact shows; while it bounces, every other step the opposite. */
  boolean made(long step) {
    long since = step - changedAt;
    boolean bouncing = since < bounceSteps && since % 2 == 1;
    return tripped != bouncing;
  }
}
