package org.benchstroke.simulator.practice;

/** How far a drawn fault goes. The ranges are those of {@link FaultDraw}. */
public enum Severity {
  CLEAR("clear", 0.0),
  MODERATE("moderate", 0.0),
  BARELY("barely above the limit", 0.0),
  /** Too small for most limits; what is seen of it must not be taken for something else. */
  BELOW("below the limit", 0.0),
  /** Up to three times the largest that is clear, or to what a bench can meet. */
  LARGE("large", 0.0),
  ONCE("the largest that is clear", 1.0),
  TWICE("twice that", 2.0),
  THRICE("three times that", 3.0);

  private final String words;
  private final double times;

  Severity(String words, double times) {
    this.words = words;
    this.times = times;
  }

  public String words() {
    return words;
  }

  /** How many times the largest that is clear; 0 for those that are drawn from a range. */
  double times() {
    return times;
  }
}
