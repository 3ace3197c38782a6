package org.benchstroke.procedure;

import java.util.List;

/**
 * A test expanded for a unit type.
 *
 * @param index its place in the procedure, from 0
 * @param name its name
 * @param actions what is done, in order
 */
public record PlannedTest(int index, String name, List<Action> actions) {
  public PlannedTest {
    actions = List.copyOf(actions);
  }

  /** Nominal duration, s. */
  public double seconds() {
    return actions.stream().mapToDouble(Action::seconds).sum();
  }
}
