package org.benchstroke.core.analysis;

/** From which side a setpoint was approached. */
public enum Direction {
  UP("up"),
  DOWN("down");

  private final String text;

  Direction(String text) {
    this.text = text;
  }

  public String text() {
    return text;
  }
}
