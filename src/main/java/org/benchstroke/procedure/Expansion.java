package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.bench.UnitType;

/** Turns a procedure into what is done to a unit of a type: a pure function of the two. */
public final class Expansion {
  private Expansion() {}

  /**
   * All the tests of the procedure, in order.
   *
   * @param samplePeriodSeconds the bench's sample period, s: it bears on the durations only
   */
  public static List<PlannedTest> of(
      Procedure procedure, UnitType unit, double samplePeriodSeconds) {
    Moves moves = new Moves(unit, samplePeriodSeconds);
    List<PlannedTest> planned = new ArrayList<>();
    for (TestSpec test : procedure.tests()) {
      planned.add(new PlannedTest(planned.size(), test, test.actions(moves)));
    }
    return planned;
  }
}
