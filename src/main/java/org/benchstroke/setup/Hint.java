package org.benchstroke.setup;

/** What a person who sets a cam does now. Each is an order of a word or two. */
public enum Hint {
  TO_PLACE("GO TO THE ANGLE"),
  CAM_ON("TURN THE CAM ON"),
  STOP("STOP"),
  BACK("BACK, UNTIL IT RESETS"),
  ON("ON AGAIN, UNTIL IT TRIPS"),
  EARLY("TOO EARLY: CAM BACK"),
  LATE("TOO LATE: CAM ON"),
  ODD("IT CHANGED THE WRONG WAY: LOOK AT ITS WIRING"),
  BY_EAR("LISTEN FOR THE CLICK"),
  GOOD("GOOD");

  private final String words;

  Hint(String words) {
    this.words = words;
  }

  /** What is shown, in capitals that are read at a distance. */
  public String words() {
    return words;
  }
}
