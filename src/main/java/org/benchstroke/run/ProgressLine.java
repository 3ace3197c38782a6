package org.benchstroke.run;

import java.util.OptionalDouble;

/** Keeps what spectators are shown between events. The runner's thread only. */
final class ProgressLine {
  private final RunLog log;
  private final double totalSeconds;
  private String test = "";
  private double setpointPercent;
  private double doneSeconds;

  ProgressLine(RunLog log, double totalSeconds) {
    this.log = log;
    this.totalSeconds = totalSeconds;
  }

  void test(String name) {
    test = name;
  }

  void setpoint(double percent) {
    setpointPercent = percent;
  }

  double setpoint() {
    return setpointPercent;
  }

  /** Nominal seconds of the procedure that lie behind. */
  void done(double seconds) {
    doneSeconds = seconds;
  }

  void reading(double positionPercent, String state) {
    show(OptionalDouble.of(positionPercent), state);
  }

  /** A state in which no position is read. */
  void blind(String state) {
    show(OptionalDouble.empty(), state);
  }

  private void show(OptionalDouble positionPercent, String state) {
    double left = Math.max(0.0, totalSeconds - doneSeconds);
    double share = totalSeconds > 0 ? Math.min(1.0, doneSeconds / totalSeconds) : 1.0;
    log.progress(new Progress(test, setpointPercent, positionPercent, state, left, share));
  }
}
