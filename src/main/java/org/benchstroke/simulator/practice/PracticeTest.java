package org.benchstroke.simulator.practice;

/** A test that a trainee can run on a mystery unit; as a table of a procedure file. */
public enum PracticeTest {
  STROKE_TIME("stroke time", "repeats = 1"),
  TRAVEL_ERROR("travel error", "points_pct = [0, 10, 25, 40, 50, 60, 75, 90, 100]", "cycles = 1"),
  STEP_RESPONSE("step response", "at_pct = 50", "sizes_pct = [10]"),
  DEAD_BAND("dead band", "at_pct = [50]", "step_pct = 0.1", "most_pct = 3", "cycles = 2"),
  RAMP("ramp", "from_pct = 0", "to_pct = 100", "stroke_times = 4"),
  HUNTING("hunting", "points_pct = [10, 30, 50, 70, 90]", "hold_s = 30"),
  SWITCHES("switches", "creep_deg_per_s = 1.0", "margin_deg = 3", "beyond_pct = 1.0", "cycles = 1"),
  SUPPLY("supply", "starts = 2"),
  SIGNAL_LOSS("signal loss", "at_pct = 50", "ways = [\"low\", \"lost\", \"open loop\"]");

  private final String title;
  private final String table;

  PracticeTest(String title, String... keys) {
    this.title = title;
    this.table = "[[test]]\ntest = \"" + title + "\"\n" + String.join("\n", keys) + "\n";
  }

  /** As procedures name it. */
  public String title() {
    return title;
  }

  /** The table of a procedure file. */
  public String table() {
    return table;
  }
}
