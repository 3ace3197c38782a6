package org.benchstroke.tests.travel;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.judge.Chapter;

/**
 * A travel error test as it was read from the record.
 *
 * @param attempt the attempt that counts
 * @param feedback the readings by the unit's feedback
 * @param stem those by the angle reference; empty if the stem was never read
 */
record TravelTest(
    Optional<Chapter> attempt, TravelReadings feedback, Optional<TravelReadings> stem) {
  /** By each truth. */
  List<TravelReadings> all() {
    return Stream.concat(Stream.of(feedback), stem.stream()).toList();
  }
}
