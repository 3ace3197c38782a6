package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.analysis.Hunting;
import org.benchstroke.core.analysis.RampFollowing;
import org.benchstroke.core.analysis.Staircase.Next.Found;
import org.benchstroke.core.analysis.Step;
import org.benchstroke.core.analysis.StepResponse;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.unit.MeasureKind;

/**
 * What a measure of a test was taken from, as it stands in the record: what a report draws. Times
 * are seconds since the record was opened. Immutable.
 */
public sealed interface TestTrace {
  /** Where in the test, as its measures have it: "10 % up". */
  Location place();

  /**
   * A step and the answer to it.
   *
   * @param trace the position, from shortly before the step to the next change of the signal
   * @param step the step and the band that settling is judged by
   * @param response what was measured; empty if the trace is not to be measured
   */
  record OfStep(Location place, Trace trace, Step step, Optional<StepResponse> response)
      implements TestTrace {}

  /**
   * A ramp one way.
   *
   * @param trace the position while the setpoint moved
   * @param line the setpoint
   * @param residual the distance of the position from the setpoint that is late by the lag, where
   *     it counts; empty if nothing was measured
   */
  record OfRamp(Location place, Trace trace, RampFollowing.Line line, Optional<Trace> residual)
      implements TestTrace {}

  /**
   * The staircases of one place and direction.
   *
   * @param kind dead band or resolution
   * @param cycles the stairs of each cycle, in the order in which they were taken
   * @param found between which two changes of the signal it moved, for each cycle that has a result
   */
  record OfStairs(Location place, MeasureKind kind, List<List<Stair>> cycles, List<Found> found)
      implements TestTrace {
    public OfStairs {
      cycles = cycles.stream().map(List::copyOf).toList();
      found = List.copyOf(found);
    }
  }

  /**
   * One stair: where the unit stood after a change of the signal.
   *
   * @param approach which approach of the search it belongs to, from 1
   * @param changePercent the change of the signal since that approach, along the search, %
   * @param movedPercent how far the unit stood from where it came to rest then, along the search, %
   * @param moved whether that is motion and no noise
   */
  record Stair(int approach, double changePercent, double movedPercent, boolean moved) {}

  /**
   * A hold.
   *
   * @param setpointPercent where the signal held it, % of travel
   * @param trace the position meanwhile
   * @param turning the turning points among its samples, if it hunted
   * @param hunting what was measured; empty if the trace is not to be measured
   */
  record OfHold(
      Location place,
      double setpointPercent,
      Trace trace,
      List<Integer> turning,
      Optional<Hunting> hunting)
      implements TestTrace {
    public OfHold {
      turning = List.copyOf(turning);
    }

    /** Motion of less than this counts as none, %. */
    public double leastPercent() {
      return hunting.map(Hunting::thresholdPercent).orElse(0.0);
    }
  }
}
