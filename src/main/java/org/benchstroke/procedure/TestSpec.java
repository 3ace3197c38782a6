package org.benchstroke.procedure;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.UnitType;

/**
 * A test of a procedure as data. It knows its keys in a procedure file and what it makes a unit do.
 * Immutable.
 */
public interface TestSpec {
  /** The test's name in files, records and reports. */
  String name();

  /** What is done, in order: a pure function of the test and the unit type. */
  List<Action> actions(Moves moves);

  /** The roles that instruments of the bench must play for it; a person can't. */
  default Set<Role> needs() {
    return Set.of();
  }

  /** What must be said before it; empty if nothing beyond what is said before any motion. */
  default Optional<Caution> caution() {
    return Optional.empty();
  }

  /** Whether it takes the motor supply away: first it is proven that the bench can. */
  default boolean cutsSupply() {
    return false;
  }

  /** What is worth a thought before it is run on a unit type, a sentence each. */
  default List<String> notes(UnitType unit) {
    return List.of();
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
