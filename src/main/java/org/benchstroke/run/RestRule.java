package org.benchstroke.run;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.analysis.Spread;
import org.benchstroke.bench.Practice;
import org.benchstroke.bench.UnitType;

/**
 * When a position is at rest: within a window W the readings' range is no wider than noise
 * explains. W = max(a shortest time, a number of controller off-times, a number of samples). Common
 * practice, no source; the numbers are in {@link Practice}. One thread.
 */
final class RestRule {
  /** Noise alone breaks the rule in one window of a hundred: it then only takes a little longer. */
  private static final double CONFIDENCE = 0.99;

  private final int samples;
  private final long windowNanos;
  private final double limitPercent;
  private final Deque<Point> window = new ArrayDeque<>();

  private record Point(long nanos, double percent) {}

  /**
   * A window that satisfied the rule.
   *
   * @param fromNanos stamp of its first reading
   * @param toNanos stamp of its last
   * @param spread of its readings, %
   */
  record Window(long fromNanos, long toNanos, Spread spread) {
    double meanPercent() {
      return spread.mean();
    }

    double rangePercent() {
      return spread.range();
    }
  }

  RestRule(UnitType unit, double samplePeriodSeconds, double noisePercent) {
    Practice practice = unit.practice();
    this.samples = practice.restSamples();
    this.windowNanos = (long) (unit.restWindowSeconds(samplePeriodSeconds) * 1e9);
    int readings = Math.max(samples, (int) Math.round(windowNanos / 1e9 / samplePeriodSeconds));
    this.limitPercent =
        Math.max(
            practice.restBandPercent(), noisePercent * NoiseRange.factor(readings, CONFIDENCE));
  }

  double limitPercent() {
    return limitPercent;
  }

  /** Forgets what it has seen: the setpoint changed. */
  void restart() {
    window.clear();
  }

  /** Takes a reading; gives the window if the position is at rest now. */
  Optional<Window> add(long nanos, double percent) {
    window.addLast(new Point(nanos, percent));
    while (window.size() > samples && nanos - second().nanos() >= windowNanos) {
      window.removeFirst();
    }
    long from = window.getFirst().nanos();
    if (window.size() < samples || nanos - from < windowNanos) {
      return Optional.empty();
    }
    double low = extreme(-1).orElseThrow();
    double high = extreme(1).orElseThrow();
    if (high - low > limitPercent) {
      return Optional.empty();
    }
    Spread spread = Spread.of(window.stream().mapToDouble(Point::percent).toArray());
    return Optional.of(new Window(from, nanos, spread));
  }

  /** Whether every reading of the window is the same to the last bit. */
  boolean frozen() {
    return window.size() >= samples
        && window.stream().mapToDouble(Point::percent).distinct().count() == 1;
  }

  private Point second() {
    var iterator = window.iterator();
    iterator.next();
    return iterator.next();
  }

  private OptionalDouble extreme(int sign) {
    return sign > 0
        ? window.stream().mapToDouble(Point::percent).max()
        : window.stream().mapToDouble(Point::percent).min();
  }
}
