package org.benchstroke.run;

import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;

/**
 * Has the stem's angle read by a person, at points of rest only. While that person looks, nothing
 * is sampled; the feedback is read again before the reading counts, so that a unit that moved
 * meanwhile is noticed. The runner's thread only.
 */
final class StemByEye {
  /** How often a reading is asked for anew because the unit moved. */
  private static final int TRIES = 3;

  /** What a stem can show beyond its travel, as a share of it. */
  private static final double BEYOND = 0.1;

  private final Eye eye;
  private final double travelDegrees;
  private final RunLog log;
  private final Sampler sampler;

  StemByEye(Eye eye, RunPlan plan, RunLog log, Sampler sampler) {
    this.eye = eye;
    this.travelDegrees = plan.unit().travelDegrees();
    this.log = log;
    this.sampler = sampler;
  }

  /**
   * Asks, and writes what was typed.
   *
   * @param point the point of the test
   * @param restPercent where the feedback came to rest, %
   * @param limitPercent how far a reading of it may lie from there, %
   * @throws TestVoid if the unit did not stand still meanwhile
   * @throws RunEnded if nobody reads
   */
  void read(String point, double restPercent, double limitPercent) throws TestVoid, RunEnded {
    String detail = "";
    for (int attempt = 1; attempt <= TRIES; attempt++) {
      ask(point);
      sampler.commanded();
      Reading<Position> now = sampler.next();
      double moved = Math.abs(now.value().percent() - restPercent);
      if (moved <= limitPercent) {
        return;
      }
      detail =
          "at \""
              + point
              + "\" the position moved by "
              + Numbers.fixed(moved, 2)
              + " % while the stem was read";
      log.write(new Event.Faulted(RunFault.MOVED_WHILE_READ, eye.spec().name(), detail));
    }
    throw new TestVoid(detail);
  }

  /**
   * Asks without a look at the feedback.
   *
   * @throws RunEnded if nobody reads
   */
  void ask(String point) throws RunEnded {
    double low = -BEYOND * travelDegrees;
    double high = (1.0 + BEYOND) * travelDegrees;
    eye.read("stem", Role.ANGLE_REFERENCE, "stem angle", point, low, high);
  }
}
