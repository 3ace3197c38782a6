package org.benchstroke.procedure;

import java.util.List;

/**
 * A test expanded for a unit type.
 *
 * @param index its place in the procedure, from 0
 * @param test the test
 * @param actions what is done, in order
 */
public record PlannedTest(int index, TestSpec test, List<Action> actions) {
  public PlannedTest {
    actions = List.copyOf(actions);
  }

  public String name() {
    return test.name();
  }

  /** Whether figures are taken from it; an exercise only loosens the unit. */
  public boolean measures() {
    return test.measures();
  }

  /** Nominal duration, s. */
  public double seconds() {
    return actions.stream().mapToDouble(Action::seconds).sum();
  }
}
