package org.benchstroke.app;

import java.util.List;
import org.benchstroke.run.RunResult;

/**
 * How a run ended.
 *
 * @param files its record, and where its reports go; there is none if it could not be written
 * @param result how it ended, and what became of the safe signal
 * @param leftOut who did not see all of it and why, a sentence each
 */
public record Outcome(RecordFiles files, RunResult result, List<String> leftOut) {
  public Outcome {
    leftOut = List.copyOf(leftOut);
  }
}
