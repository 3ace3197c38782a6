package org.benchstroke.simulator;

import org.benchstroke.core.model.UnitModel;
import org.benchstroke.io.instrument.LimitSwitch;

/** What the unit's switches say. Stateless. */
final class SimulatedSwitches {
  private SimulatedSwitches() {}

  static boolean made(UnitModel unit, LimitSwitch which) {
    return switch (which) {
      case CLOSED -> unit.closedMade();
      case OPEN -> unit.openMade();
      case CLOSED_AUXILIARY -> unit.closedAuxiliaryMade();
      case OPEN_AUXILIARY -> unit.openAuxiliaryMade();
    };
  }
}
