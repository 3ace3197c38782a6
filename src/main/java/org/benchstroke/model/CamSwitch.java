package org.benchstroke.model;

/** A switch on a cam: trips at its angle, resets a differential further back, bounces. */
final class CamSwitch {
  private final double sign;
  private final double trip;
  private final double reset;
  private final long bounceSteps;
  private boolean tripped;
  private long sinceChange = Long.MAX_VALUE / 2;

  /**
   * A switch for one end.
   *
   * @param openEnd whether angles above the cam's trip it
   */
  CamSwitch(boolean openEnd, double camDegrees, CamParameters cams, double stepSeconds) {
    this.sign = openEnd ? 1.0 : -1.0;
    this.trip = sign * camDegrees;
    this.reset = trip - cams.differentialDegrees();
    this.bounceSteps = Math.round(cams.bounceSeconds() / stepSeconds);
  }

  void step(double degrees) {
    double along = sign * degrees;
    boolean now = tripped ? along > reset : along >= trip;
    sinceChange = now == tripped ? sinceChange + 1 : 0;
    tripped = now;
  }

  /** Whether the cam holds it: what cuts the motor. */
  boolean tripped() {
    return tripped;
  }

  /** What its contact shows; while it bounces, every other step the opposite. */
  boolean made() {
    boolean bouncing = sinceChange < bounceSteps && sinceChange % 2 == 1;
    return tripped != bouncing;
  }
}
