package org.benchstroke.simulator;

import java.util.List;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.model.UnitModel;

/** The discrete inputs to which the unit's switches are wired. */
final class SimulatedSwitches {
  /** In the order of their addresses, from 0. */
  static final List<LimitSwitch> WIRED =
      List.of(
          LimitSwitch.CLOSED,
          LimitSwitch.CLOSED_AUXILIARY,
          LimitSwitch.OPEN_AUXILIARY,
          LimitSwitch.OPEN);

  static final int COUNT = WIRED.size();

  private SimulatedSwitches() {}

  static int[] read(UnitModel unit) {
    return WIRED.stream().mapToInt(each -> made(unit, each) ? 1 : 0).toArray();
  }

  private static boolean made(UnitModel unit, LimitSwitch which) {
    return switch (which) {
      case CLOSED -> unit.closedMade();
      case OPEN -> unit.openMade();
      case CLOSED_AUXILIARY -> unit.closedAuxiliaryMade();
      case OPEN_AUXILIARY -> unit.openAuxiliaryMade();
    };
  }
}
