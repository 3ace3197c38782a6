package org.benchstroke.judge;

/**
 * The words of a judgement: ILAC-G8:09/2019 4.2.3, non-binary rule with guard band, and one for
 * what could not be judged. From best to worst.
 */
public enum Word {
  PASS("pass"),
  CONDITIONAL_PASS("conditional pass"),
  CONDITIONAL_FAIL("conditional fail"),
  FAIL("fail"),
  /** A limit is stated, but there is no valid value to compare with it. */
  NO_RESULT("no result");

  private final String text;

  Word(String text) {
    this.text = text;
  }

  /** Of a measure or an order, and in files. */
  public String text() {
    return text;
  }

  /** Of a whole unit, for people: "passed" and "failed", the others as they are. */
  public String ofUnit() {
    return switch (this) {
      case PASS -> "passed";
      case FAIL -> "failed";
      default -> text;
    };
  }
}
