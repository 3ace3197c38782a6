package org.benchstroke.run;

/**
 * The person at the bench, or what stands in for one on a simulated bench: a terminal, a screen, a
 * script. The runner's thread.
 */
public interface Operator {
  /** Nobody is there: every caution is refused, nothing is set and nothing is read. */
  Operator NOBODY = question -> Answer.no();

  /**
   * Shows a question and waits until it has been answered. Nothing that was said before it was
   * shown answers it.
   *
   * @return anything but the kind of answer that the question asks for means <em>no</em>
   */
  Answer answer(Question question);

  /** Counts down before motion; the unit moves when this returns. */
  default void countDown() {}

  /**
   * Says what must be done again and again while a person is waited for: instruments with a
   * watchdog would stop. Whoever waits longer than a moment does it at least every quarter of a
   * second of wall time.
   *
   * @param task quick; on the thread that asks
   */
  default void whileWaiting(Runnable task) {}
}
