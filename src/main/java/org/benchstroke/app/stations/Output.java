package org.benchstroke.app.stations;

/** What the source does to the unit. */
public enum Output {
  /** Nothing was put on the unit's input in this run yet. */
  QUIET(""),
  /** A current that can move the unit, or has. */
  LIVE("OUTPUT LIVE"),
  /** The safe signal is on, and the source said so. */
  SAFE("SAFE SIGNAL"),
  /** The safe signal was commanded, and nothing says that it is on. */
  UNKNOWN("OUTPUT NOT KNOWN: KEEP CLEAR");

  private final String words;

  Output(String words) {
    this.words = words;
  }

  /** For people, from afar. */
  public String words() {
    return words;
  }
}
