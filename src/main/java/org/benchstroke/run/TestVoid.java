package org.benchstroke.run;

/** What a test has measured so far can't be used; the message says why. */
final class TestVoid extends Exception {
  private static final long serialVersionUID = 1L;

  TestVoid(String reason) {
    super(reason);
  }
}
