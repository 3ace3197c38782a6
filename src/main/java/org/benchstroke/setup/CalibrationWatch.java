package org.benchstroke.setup;

import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.io.instrument.Reading;

/**
 * Watches a unit that calibrates itself: which way it goes first, how far it gets, and when it last
 * moved. It goes by the stem's angle where a reference is fitted, else by the unit's feedback,
 * whose scale is what the calibration sets. One thread.
 */
final class CalibrationWatch {
  /** It moves once it went further than this, % of travel. Own choice. */
  private static final double MOVED_PERCENT = 0.5;

  private final double travelDegrees;
  private final long begunNanos;
  private boolean byAngle;
  private double start = Double.NaN;
  private double last = Double.NaN;
  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;
  private double heading;
  private int first;
  private long movedNanos;

  CalibrationWatch(long begunNanos, double travelDegrees) {
    this.begunNanos = begunNanos;
    this.movedNanos = begunNanos;
    this.travelDegrees = travelDegrees;
  }

  void seen(Look look) {
    Optional<Reading<?>> reading =
        look.angle().<Reading<?>>map(a -> a).or(() -> look.position().map(p -> p));
    if (reading.isEmpty()) {
      return;
    }
    byAngle = look.angle().isPresent();
    double percent =
        byAngle
            ? look.angle().get().value().degrees() / travelDegrees * 100.0
            : look.position().orElseThrow().value().percent();
    take(percent, reading.get().stampNanos());
  }

  private void take(double percent, long nanos) {
    low = Math.min(low, percent);
    high = Math.max(high, percent);
    if (Double.isNaN(start)) {
      start = percent;
      last = percent;
    }
    if (Math.abs(percent - last) >= MOVED_PERCENT) {
      heading = Math.signum(percent - last);
      first = first == 0 ? (int) heading : first;
      last = percent;
      movedNanos = nanos;
    }
  }

  /** How long since it was begun, s. */
  double seconds(long nowNanos) {
    return (nowNanos - begunNanos) / 1e9;
  }

  /** From its begin to its last motion, s; empty if it was never seen to move. */
  OptionalDouble movedSeconds() {
    return first == 0 ? OptionalDouble.empty() : OptionalDouble.of((movedNanos - begunNanos) / 1e9);
  }

  /** "closing" or "opening"; empty if it was never seen to move. */
  Optional<String> firstWay() {
    return first == 0 ? Optional.empty() : Optional.of(way(first));
  }

  /** Which way it goes now, or "stands" if it has not moved for a second. */
  String now(long nowNanos) {
    boolean stands = first == 0 || nowNanos - movedNanos > 1_000_000_000L;
    return stands ? "stands" : way(heading);
  }

  private static String way(double heading) {
    return heading > 0 ? "opening" : "closing";
  }

  /** The lowest that was read, ° by the reference or % by the feedback. */
  OptionalDouble lowest() {
    return end(low);
  }

  /** The highest. */
  OptionalDouble highest() {
    return end(high);
  }

  private OptionalDouble end(double percent) {
    if (Double.isInfinite(percent)) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(byAngle ? percent / 100.0 * travelDegrees : percent);
  }

  /** Whether that is an angle. */
  boolean byAngle() {
    return byAngle;
  }
}
