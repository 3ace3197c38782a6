package org.benchstroke.jobs;

import java.util.Collection;

/**
 * How many units passed as they were found. Immutable.
 *
 * @param passed so many passed at the first whole attempt, without any condition
 * @param found of so many that have a whole attempt
 * @param open and so many have none yet: they are in neither count
 */
public record FirstPasses(int passed, int found, int open) {
  /**
   * Of these jobs.
   *
   * @param simulated whether those of simulated units are counted, or those of real ones: never
   *     both together
   */
  public static FirstPasses of(Collection<Job> jobs, boolean simulated) {
    int passed = 0;
    int found = 0;
    int open = 0;
    for (Job job : jobs) {
      if (job.simulated() == simulated) {
        passed += job.firstPass() ? 1 : 0;
        found += job.asFound().isPresent() ? 1 : 0;
        open += job.asFound().isPresent() ? 0 : 1;
      }
    }
    return new FirstPasses(passed, found, open);
  }

  /** As people say it: "7 of 9". */
  public String text() {
    return passed + " of " + found;
  }
}
