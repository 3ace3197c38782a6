package org.benchstroke.judge;

/**
 * What became of one test of the procedure.
 *
 * @param name the test
 * @param outcome "complete", "void" or "not done"
 * @param attempts how many were made
 * @param reason why it is void or was not done; may be empty
 */
public record TestSummary(String name, String outcome, int attempts, String reason) {
  /** Whether its figures count. */
  public boolean complete() {
    return outcome.equals(Chapter.COMPLETE);
  }
}
