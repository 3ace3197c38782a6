package org.benchstroke.app.stations;

import java.util.List;
import org.benchstroke.run.Echo;

/**
 * A job that was taken: what is about to be done, to be compared with what stands on the bench.
 * Immutable.
 *
 * @param sheet what was asked for
 * @param echo what will be done, line by line
 * @param warnings what a person must know before it, a sentence each
 * @param attempts how many there were at this job before
 * @param wantsSupervisor whether somebody must allow it, and nobody is named yet
 */
public record Job(
    JobSheet sheet, Echo echo, List<String> warnings, int attempts, boolean wantsSupervisor) {
  public Job {
    warnings = List.copyOf(warnings);
  }
}
