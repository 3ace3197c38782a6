package org.benchstroke.app.stations;

/** How far a station is with its unit. */
public enum Stage {
  /** No job: the next unit can be scanned. */
  FREE("free"),
  /** A job is taken and shown; nothing is connected yet. */
  TAKEN("job taken"),
  /** A run goes on, or asks its first questions. */
  RUNNING("running"),
  /** The run has ended, and what came of it is there. */
  ENDED("ended");

  private final String words;

  Stage(String words) {
    this.words = words;
  }

  /** For people. */
  public String words() {
    return words;
  }
}
