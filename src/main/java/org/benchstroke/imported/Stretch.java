package org.benchstroke.imported;

import java.util.Map;

/**
 * The plateaus of a file that show one test.
 *
 * @param from the first plateau, where the unit sets out
 * @param to the one behind the last; equal to from if the file doesn't show the test
 * @param waits what the rest of a plateau is of the test, by its index
 * @param note what is missing of it; empty if nothing
 */
record Stretch(int from, int to, Map<Integer, Stretch.Wait> waits, String note) {
  /** The name of a rest in the record. */
  record Wait(String point, String direction, int cycle) {}

  Stretch {
    waits = Map.copyOf(waits);
  }

  static Stretch none(String why) {
    return new Stretch(0, 0, Map.of(), why);
  }

  boolean found() {
    return to > from;
  }
}
