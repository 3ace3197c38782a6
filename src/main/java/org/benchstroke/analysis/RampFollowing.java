package org.benchstroke.analysis;

import java.util.ArrayList;
import java.util.List;

/**
 * How a position follows a setpoint that moves evenly. Immutable.
 *
 * @param lagSeconds the mean delay behind the setpoint, s
 * @param residualPercent the largest distance from the line that is late by the lag, %
 * @param scatterPercent the standard deviation about that line, %
 * @param starts starts of motion
 * @param seconds how long it was looked at, s
 * @param samples how many positions
 */
public record RampFollowing(
    double lagSeconds,
    double residualPercent,
    double scatterPercent,
    int starts,
    double seconds,
    int samples) {
  /** The beginning and the end of a ramp, where the unit takes up its lag, don't count. */
  private static final double EDGE = 0.1;

  /**
   * A ramp of the setpoint.
   *
   * @param fromSeconds its first setpoint was set then
   * @param fromPercent the first setpoint
   * @param toSeconds its last setpoint was set then; later
   * @param toPercent the last setpoint; another one
   */
  public record Line(double fromSeconds, double fromPercent, double toSeconds, double toPercent) {
    public Line {
      if (!(toSeconds > fromSeconds) || fromPercent == toPercent) {
        throw new IllegalArgumentException("a ramp takes time and leads somewhere else");
      }
    }

    double percentPerSecond() {
      return (toPercent - fromPercent) / (toSeconds - fromSeconds);
    }

    double at(double seconds) {
      return fromPercent + (seconds - fromSeconds) * percentPerSecond();
    }
  }

  /**
   * Measures a ramp.
   *
   * @param trace the position while the setpoint moved; samples beyond the ramp don't count
   * @param thresholdPercent what noise can't reach, %, above 0
   */
  public static RampFollowing of(Trace trace, Line line, double thresholdPercent) {
    double edge = EDGE * (line.toSeconds() - line.fromSeconds());
    Trace inner = trace.between(line.fromSeconds() + edge, line.toSeconds() - edge);
    double rate = line.percentPerSecond();
    List<Double> behind = new ArrayList<>();
    MotionMeter meter = new MotionMeter(thresholdPercent, 0.2);
    for (int i = 0; i < inner.size(); i++) {
      behind.add(line.at(inner.seconds(i)) - inner.percent(i));
      meter.add(inner.seconds(i), inner.percent(i));
    }
    Spread spread = Spread.of(behind);
    double residual = 0.0;
    for (double each : behind) {
      residual = Math.max(residual, Math.abs(each - spread.mean()));
    }
    return new RampFollowing(
        spread.mean() / rate,
        residual,
        spread.deviation(),
        meter.starts(),
        meter.watchedSeconds(),
        inner.size());
  }
}
