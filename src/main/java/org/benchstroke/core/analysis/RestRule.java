package org.benchstroke.core.analysis;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * When a position is at rest: within a window W the readings' range is no wider than noise
 * explains. W = max(a shortest time, a number of controller off-times, a number of samples). Common
 * practice, no source; the numbers are the unit type's. One thread.
 */
public final class RestRule {
  /** Noise alone breaks the rule in one window of a hundred: it then only takes a little longer. */
  private static final double CONFIDENCE = 0.99;

  private final int samples;
  private final long windowNanos;
  private final double limitPercent;
  private final Deque<Point> window = new ArrayDeque<>();
  private double lowest = Double.POSITIVE_INFINITY;
  private double highest = Double.NEGATIVE_INFINITY;

  private record Point(long nanos, double percent) {}

  /**
   * A window that satisfied the rule.
   *
   * @param fromNanos stamp of its first reading
   * @param toNanos stamp of its last
   * @param spread of its readings, %
   */
  public record Window(long fromNanos, long toNanos, Spread spread) {
    public double meanPercent() {
      return spread.mean();
    }

    public double rangePercent() {
      return spread.range();
    }
  }

  /**
   * A rule that has seen nothing yet.
   *
   * @param samples the fewest readings of a window
   * @param windowSeconds W, the shortest window, s
   * @param bandPercent the range that is allowed without any noise, %
   * @param samplePeriodSeconds how often the position is read, s
   * @param noisePercent standard deviation of the reading at rest, %
   */
  public RestRule(
      int samples,
      double windowSeconds,
      double bandPercent,
      double samplePeriodSeconds,
      double noisePercent) {
    this.samples = samples;
    this.windowNanos = (long) (windowSeconds * 1e9);
    int readings = Math.max(samples, (int) Math.round(windowNanos / 1e9 / samplePeriodSeconds));
    this.limitPercent =
        Math.max(bandPercent, noisePercent * NoiseRange.factor(readings, CONFIDENCE));
  }

  /** The largest range within a window at rest, %. */
  public double limitPercent() {
    return limitPercent;
  }

  /** Forgets what it has seen: the setpoint changed. */
  public void restart() {
    window.clear();
    lowest = Double.POSITIVE_INFINITY;
    highest = Double.NEGATIVE_INFINITY;
  }

  /** Takes a reading; gives the window if the position is at rest now. */
  public Optional<Window> add(long nanos, double percent) {
    window.addLast(new Point(nanos, percent));
    lowest = Math.min(lowest, percent);
    highest = Math.max(highest, percent);
    while (window.size() > samples && nanos - second().nanos() >= windowNanos) {
      window.removeFirst();
    }
    long from = window.getFirst().nanos();
    if (window.size() < samples || nanos - from < windowNanos) {
      return Optional.empty();
    }
    double low = percent;
    double high = percent;
    for (Point point : window) {
      low = Math.min(low, point.percent());
      high = Math.max(high, point.percent());
    }
    // Said so that a reading that is no number is no rest either.
    if (!(high - low <= limitPercent)) {
      return Optional.empty();
    }
    Spread spread = Spread.of(window.stream().mapToDouble(Point::percent).toArray());
    return Optional.of(new Window(from, nanos, spread));
  }

  /**
   * Whether it has moved at all since the setpoint changed. One that must follow and has not stands
   * still because its dead time is not over, or for good: which of the two, only waiting tells.
   */
  public boolean moved() {
    return highest - lowest > limitPercent;
  }

  /** Whether every reading of the window is the same to the last bit. */
  public boolean frozen() {
    return window.size() >= samples
        && window.stream().mapToDouble(Point::percent).distinct().count() == 1;
  }

  private Point second() {
    var iterator = window.iterator();
    iterator.next();
    return iterator.next();
  }

  /**
   * Whether an approach was clean: on its way the unit went no further past its place of rest than
   * allowed. Coming back, it would rest on the other side of its hysteresis.
   *
   * @param direction "up" or "down"; any other approach has no side to overrun
   * @param restPercent where it came to rest, %
   * @param seenPercent all readings since the setpoint changed, %
   * @param overshootPercent what is allowed without any noise, %
   * @param noisePercent standard deviation of the reading at rest, %: 5 of them are allowed, too
   */
  public static boolean clean(
      String direction,
      double restPercent,
      List<Double> seenPercent,
      double overshootPercent,
      double noisePercent) {
    double overrun =
        switch (direction) {
          case "up" -> seenPercent.stream().mapToDouble(y -> y - restPercent).max().orElse(0.0);
          case "down" -> seenPercent.stream().mapToDouble(y -> restPercent - y).max().orElse(0.0);
          default -> 0.0;
        };
    return overrun <= Math.max(overshootPercent, 5.0 * noisePercent);
  }
}
