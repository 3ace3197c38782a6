package org.benchstroke.procedure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.record.Entry;
import org.benchstroke.record.StepId;
import org.benchstroke.unit.UnitType;

/**
 * A procedure expanded to what is done to a unit of a type: a pure function of the two. Immutable.
 *
 * @param tests all the tests of the procedure, in order
 */
public record Expansion(List<PlannedTest> tests) {
  public Expansion {
    tests = List.copyOf(tests);
  }

  /**
   * Expands a procedure.
   *
   * @param samplePeriodSeconds the bench's sample period, s: it bears on the durations only
   */
  public static Expansion of(Procedure procedure, UnitType unit, double samplePeriodSeconds) {
    Moves moves = new Moves(unit, samplePeriodSeconds);
    List<PlannedTest> planned = new ArrayList<>();
    for (TestSpec test : procedure.tests()) {
      planned.add(new PlannedTest(planned.size(), test, test.actions(moves)));
    }
    return new Expansion(planned);
  }

  /** Nominal duration, s. */
  public double seconds() {
    return tests.stream().mapToDouble(PlannedTest::seconds).sum();
  }

  /** What a step of a run is for; empty if the procedure has no such step. */
  public Optional<Aim> aim(StepId id) {
    return id.test() < tests.size() && id.step() < tests.get(id.test()).actions().size()
        ? Optional.of(tests.get(id.test()).actions().get(id.step()).aim())
        : Optional.empty();
  }

  /** What a line of a record was for; empty between the steps. */
  public Optional<Aim> aim(Entry entry) {
    return entry.step().flatMap(this::aim);
  }
}
