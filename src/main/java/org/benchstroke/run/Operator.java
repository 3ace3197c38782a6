package org.benchstroke.run;

import java.util.OptionalDouble;
import org.benchstroke.procedure.Caution;

/** The person at the bench, or what stands in for one on a simulated bench. The runner's thread. */
public interface Operator {
  /** Nobody is there: every caution is refused, nothing is set and nothing is read. */
  Operator NOBODY =
      new Operator() {
        @Override
        public String acknowledge(Caution caution) {
          return "";
        }

        @Override
        public void countDown() {
          // Nothing moves.
        }
      };

  /**
   * Shows a caution and waits until it has been answered.
   *
   * @return how it was acknowledged, for the record; empty means <em>no</em>: the run then stops
   */
  String acknowledge(Caution caution);

  /** Counts down before motion; the unit moves when this returns. */
  void countDown();

  /**
   * Asks a person to do something and waits until it is done.
   *
   * @param request what, in words: "Set \"loop calibrator\" to 12.000 mA"
   * @return whether the person says that it is done; false also if nobody is there
   */
  default boolean confirm(String request) {
    return false;
  }

  /**
   * Says what must be done again and again while a person is waited for: instruments with a
   * watchdog would stop. Whoever waits longer than a moment does it at least every quarter of a
   * second of the wall.
   *
   * @param task quick; on the thread that asks
   */
  default void whileWaiting(Runnable task) {}

  /**
   * Asks for what a display shows and waits until a number that can be it has been typed.
   *
   * @return the number as typed; empty if the person stops, or nobody is there to read
   */
  default OptionalDouble read(DisplayQuestion question) {
    return OptionalDouble.empty();
  }
}
