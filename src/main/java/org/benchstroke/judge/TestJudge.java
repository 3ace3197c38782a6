package org.benchstroke.judge;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.procedure.TestSpec;

/**
 * Judges one test of a record: made for it, and asked in this order. Every answer is a pure
 * function of what it was made with.
 */
public interface TestJudge {
  /** Makes the judge of a test. */
  @FunctionalInterface
  interface Of<S extends TestSpec> {
    /**
     * Makes it.
     *
     * @param judged what every test is judged with
     * @param spec the test
     * @param attempt the attempt that counts; empty if none was completed
     */
    TestJudge of(JudgedBench judged, S spec, Optional<Chapter> attempt);
  }

  /**
   * Groups of errors, %, of approaches that a unit without scatter would have alike, by each truth.
   * Asked before the unit's scatter is known, of another judge of the same test.
   */
  default Map<Truth, List<List<Double>>> alike() {
    return Map.of();
  }

  /** What the test gives. */
  TestResult result();

  /**
   * What a file of others holds beside the asked that speaks against the test's passes, in words.
   *
   * @param result what the test gives without that
   */
  default Optional<String> beside(TestResult result) {
    return Optional.empty();
  }

  /**
   * Measures that follow from this test and others together.
   *
   * @param measures those of all tests
   */
  default List<Measure> related(List<Measure> measures) {
    return List.of();
  }
}
