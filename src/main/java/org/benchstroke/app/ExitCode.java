package org.benchstroke.app;

import org.benchstroke.judge.JudgedRun;

/** What the program's exit says to a script. */
public final class ExitCode {
  /** A whole, valid, passing run; or the request was done. */
  public static final int PASSED = 0;

  /** Judged, and not passed. */
  public static final int NOT_PASSED = 1;

  /** The request was wrong; nothing was done. */
  public static final int WRONG_REQUEST = 2;

  /** The test could not be completed. */
  public static final int NOT_COMPLETED = 3;

  private ExitCode() {}

  public static int of(JudgedRun run) {
    if (run.passed()) {
      return PASSED;
    }
    String how = run.record().closed().map(closed -> closed.how()).orElse("interrupted");
    boolean judged = how.equals("complete") || how.equals("action reversed");
    return judged ? NOT_PASSED : NOT_COMPLETED;
  }
}
