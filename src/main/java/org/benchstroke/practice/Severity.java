package org.benchstroke.practice;

/** How far a drawn fault goes. The ranges are those of {@link FaultDraw}. */
public enum Severity {
  CLEAR("clear"),
  MODERATE("moderate"),
  BARELY("barely above the limit");

  private final String words;

  Severity(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }
}
