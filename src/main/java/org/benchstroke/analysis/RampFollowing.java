package org.benchstroke.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.quantity.Numbers;

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
  /**
   * The share of a ramp at its beginning and at its end where the unit takes up its lag, and which
   * doesn't count; our choice.
   */
  private static final double EDGE = 0.1;

  /** Fewer samples say nothing about a mean and its scatter; our choice. */
  private static final int LEAST_SAMPLES = 30;

  /** A position that follows goes at the setpoint's speed, within this share; our choice. */
  private static final double SAME_SPEED = 0.25;

  /** A unit that moved no further for so long has stopped, s; our choice. */
  private static final double STILL_SECONDS = 0.2;

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

    /** The speed of the setpoint, %/s; negative if it falls. */
    public double percentPerSecond() {
      return (toPercent - fromPercent) / (toSeconds - fromSeconds);
    }

    double at(double seconds) {
      return fromPercent + (seconds - fromSeconds) * percentPerSecond();
    }
  }

  /** What makes a ramp unfit to be measured; empty if nothing does. */
  public static Optional<String> unfit(Trace trace, Line line) {
    Trace inner = inner(trace, line);
    return inner.size() < LEAST_SAMPLES
        ? Optional.of("only " + inner.size() + " samples on the ramp, at least " + LEAST_SAMPLES)
        : TraceGuards.saturated(inner).or(() -> astray(inner, line));
  }

  /** A mean distance is a lag only of what goes the same way at about the same speed. */
  private static Optional<String> astray(Trace inner, Line line) {
    double[] seconds = new double[inner.size()];
    double[] percent = new double[inner.size()];
    for (int i = 0; i < inner.size(); i++) {
      seconds[i] = inner.seconds(i);
      percent[i] = inner.percent(i);
    }
    double speed = StraightLine.fit(seconds, percent).slope();
    double rate = line.percentPerSecond();
    return Math.abs(speed / rate - 1.0) > SAME_SPEED
        ? Optional.of(
            "it does not follow: it goes at "
                + Numbers.signed(speed, 2)
                + " %/s where its setpoint goes at "
                + Numbers.signed(rate, 2)
                + " %/s")
        : Optional.empty();
  }

  private static Trace inner(Trace trace, Line line) {
    double edge = EDGE * (line.toSeconds() - line.fromSeconds());
    return trace.between(line.fromSeconds() + edge, line.toSeconds() - edge);
  }

  /**
   * The distance of the position from the setpoint that is late by the lag, with its sign: what
   * {@code residualPercent} is the largest of.
   */
  public Trace residuals(Trace trace, Line line) {
    Trace inner = inner(trace, line);
    Trace.Builder residuals = Trace.builder(inner.size());
    for (int i = 0; i < inner.size(); i++) {
      double late = line.at(inner.seconds(i) - lagSeconds);
      residuals.add(
          inner.seconds(i), inner.stampHalfSeconds(i), inner.percent(i) - late, inner.saturated(i));
    }
    return residuals.build();
  }

  /**
   * Measures a ramp that is not {@link #unfit}.
   *
   * @param trace the position while the setpoint moved; samples beyond the ramp don't count
   * @param thresholdPercent what noise can't reach, %, above 0
   */
  public static RampFollowing of(Trace trace, Line line, double thresholdPercent) {
    Trace inner = inner(trace, line);
    double rate = line.percentPerSecond();
    List<Double> behind = new ArrayList<>();
    MotionMeter meter = new MotionMeter(thresholdPercent, STILL_SECONDS);
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
