package org.benchstroke.procedure;

import java.util.List;
import java.util.Set;
import org.benchstroke.io.instrument.Role;

/**
 * A test of a procedure as data. It knows its keys in a procedure file and what it makes a unit do;
 * {@code ProcedureReader} holds the catalogue of them. Immutable.
 */
public sealed interface TestSpec
    permits ByHand,
        DeadBand,
        DutyRun,
        Endurance,
        Exercise,
        Holds,
        PowerLoss,
        Resolution,
        SignalLoss,
        SlowRamp,
        Steps,
        StrokeTime,
        SupplyVoltage,
        Switches,
        TravelError {
  /** The test's name in files, records and reports. */
  String name();

  /** What is done, in order: a pure function of the test and the unit type. */
  List<Action> actions(Moves moves);

  /** The roles that instruments of the bench must play for it; a person can't. */
  default Set<Role> needs() {
    return Set.of();
  }

  /** Whether it can be done where a person reads the position, at points of rest only. */
  default boolean byEye() {
    return false;
  }

  /** Whether a gap between two samples voids the whole test. */
  default boolean gapVoids() {
    return measures();
  }

  /** Whether figures are taken from it; an exercise only loosens the unit. */
  default boolean measures() {
    return true;
  }
}
