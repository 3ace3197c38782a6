package org.benchstroke.judge;

import java.util.List;

/** What follows from measures of several tests, whichever those are. Stateless. */
public interface Relation {
  /**
   * What follows.
   *
   * @param measures those of all tests
   * @param judged what they were judged with
   */
  List<Measure> measures(List<Measure> measures, JudgedBench judged);

  /**
   * What stands out of them.
   *
   * @param measures those of all tests, and what follows from them
   */
  List<Finding> findings(List<Measure> measures);
}
