package org.benchstroke.run;

/** How it is known that a unit has come to rest. The runner's thread only. */
interface Rest {
  /**
   * Waits until the unit is at rest, or until the wait is given up, and writes which.
   *
   * @param state what spectators are told meanwhile
   */
  Arrival await(Wait wait, String state) throws TestVoid, RunEnded;
}
