package org.benchstroke.simulator;

import org.benchstroke.core.model.UnitModel;

/**
 * The relay of a bench for the unit's motor supply. A welded contact stays closed, while the coil
 * does, and says, what it is told. One thread.
 */
final class SimulatedRelay {
  private final UnitModel unit;
  private final boolean welded;
  private boolean coil;

  SimulatedRelay(UnitModel unit, boolean welded) {
    this.unit = unit;
    this.welded = welded;
    if (welded) {
      unit.motorPower(true);
    }
  }

  void set(boolean on) {
    coil = on;
    unit.motorPower(on || welded);
  }

  /** What its coil reads back. */
  boolean on() {
    return welded ? coil : unit.motorPower();
  }
}
