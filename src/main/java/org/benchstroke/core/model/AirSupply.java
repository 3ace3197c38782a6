package org.benchstroke.core.model;

/**
 * A regulator and the volume behind it, fed over a valve that vents the volume once it is off.
 * Pressure absolute, bar.
 */
final class AirSupply {
  /** How fast a valve that is off vents the volume, s. Common practice, no source. */
  private static final double VENT_SECONDS = 0.1;

  private final double regulated;
  private final double capacity;
  private final double fills;
  private final double vents;
  private double bar = AirFlow.ROOM_BAR;

  AirSupply(AirParameters air, double stepSeconds) {
    this.regulated = air.supplyBar() + AirFlow.ROOM_BAR;
    this.capacity = air.capacityRatio();
    this.fills = 1.0 - StrictMath.exp(-stepSeconds / air.regulatorSeconds());
    this.vents = 1.0 - StrictMath.exp(-stepSeconds / VENT_SECONDS);
  }

  /**
   * One step.
   *
   * @param drawn air that the actuator took, bar × its swept volume
   */
  void step(boolean on, double drawn) {
    double before = Math.max(AirFlow.ROOM_BAR, bar - drawn / capacity);
    // A regulator gives, it does not take back.
    double given = on ? Math.max(0.0, regulated - before) * fills : 0.0;
    bar = on ? before + given : before + (AirFlow.ROOM_BAR - before) * vents;
  }

  double bar() {
    return bar;
  }
}
