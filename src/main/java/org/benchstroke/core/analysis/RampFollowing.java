package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.quantity.Numbers;

/**
 * How a position follows a setpoint that moves evenly. Immutable.
 *
 * @param lagSeconds the mean delay behind the setpoint, s
 * @param residualPercent the largest distance from the line that is late by the lag, %
 * @param scatterPercent the standard deviation about that line, %
 * @param meanStandardPercent the standard uncertainty of the mean distance behind the setpoint by
 *     cycles of stick and slip that the ramp doesn't hold whole, %: from the means of its parts
 * @param behind the distance of each position from that line, %
 * @param intervalSeconds the mean time between two samples, s
 * @param starts starts of motion
 * @param startsPerMinute starts of motion a minute
 */
public record RampFollowing(
    double lagSeconds,
    double residualPercent,
    double scatterPercent,
    double meanStandardPercent,
    List<Double> behind,
    double intervalSeconds,
    int starts,
    Estimate startsPerMinute) {
  public RampFollowing {
    behind = List.copyOf(behind);
  }

  /**
   * The share of a ramp at its beginning and at its end where the unit takes up its lag, and which
   * doesn't count; our choice.
   */
  private static final double EDGE = 0.1;

  /** Into so many parts a ramp is divided, each of several starts; our choice. */
  public static final int BLOCKS = 6;

  /** Fewer samples say nothing about a mean and its scatter; our choice. */
  private static final int LEAST_SAMPLES = 30;

  /** A position that follows goes at the setpoint's speed, within this share; our choice. */
  private static final double SAME_SPEED = 0.25;

  /** A unit that moved no further for so long has stopped, s; our choice. */
  private static final double STILL_SECONDS = 0.2;

  /** What else might count as a motion, as multiples of what does; our choice. */
  private static final double[] OTHER_THRESHOLDS = {1.5, 2.0};

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
    double interval = meter.watchedSeconds() / (inner.size() - 1.0);
    Spread spread = Spread.of(behind);
    List<Double> distances = behind.stream().map(each -> each - spread.mean()).toList();
    double residual = distances.stream().mapToDouble(Math::abs).max().orElseThrow();
    return new RampFollowing(
        spread.mean() / rate,
        residual,
        spread.deviation(),
        blocks(behind),
        distances,
        interval,
        meter.starts(),
        starts(meter, inner, thresholdPercent));
  }

  /**
   * Starts a minute. Where pauses hardly last as long as what is seen, how many are counted hangs
   * on what counts as motion: U holds what twice as much, and half as much again, would count.
   */
  private static Estimate starts(MotionMeter meter, Trace inner, double thresholdPercent) {
    Estimate counted = starts(meter, inner);
    double apart = 0.0;
    for (double more : OTHER_THRESHOLDS) {
      MotionMeter other = new MotionMeter(more * thresholdPercent, STILL_SECONDS);
      for (int i = 0; i < inner.size(); i++) {
        other.add(inner.seconds(i), inner.percent(i));
      }
      apart = Math.max(apart, Math.abs(starts(other, inner).value() - counted.value()));
    }
    List<Estimate.Part> parts = new ArrayList<>(counted.parts());
    parts.add(Estimate.Part.within("what counts as a start", apart));
    return new Estimate(counted.value(), parts, counted.perPercent());
  }

  private static Estimate starts(MotionMeter meter, Trace inner) {
    double interval = meter.watchedSeconds() / (inner.size() - 1.0);
    return Hunting.starts(meter, interval, inner.stampHalfSeconds(0), 60.0);
  }

  private static double blocks(List<Double> behind) {
    int each = behind.size() / BLOCKS;
    List<Double> means = new ArrayList<>();
    for (int i = 0; i < BLOCKS; i++) {
      means.add(Spread.of(behind.subList(i * each, (i + 1) * each)).mean());
    }
    // What one part holds too much of a cycle the next one lacks: s/B, not s/√B.
    return Spread.of(means).deviation() / BLOCKS;
  }
}
