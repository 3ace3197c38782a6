package org.benchstroke.cli;

import org.benchstroke.judge.JudgedRun;

/** What the program's exit says to a script. */
final class ExitCode {
  /** A whole, valid, passing run; or the request was done. */
  static final int PASSED = 0;

  /** Judged, and not passed. */
  static final int NOT_PASSED = 1;

  /** The request was wrong; nothing was done. */
  static final int WRONG_REQUEST = 2;

  /** The test could not be completed. */
  static final int NOT_COMPLETED = 3;

  private ExitCode() {}

  static int of(JudgedRun run) {
    if (run.passed()) {
      return PASSED;
    }
    String how = run.record().closed().map(closed -> closed.how()).orElse("interrupted");
    boolean judged = how.equals("complete") || how.equals("action reversed");
    return judged ? NOT_PASSED : NOT_COMPLETED;
  }
}
