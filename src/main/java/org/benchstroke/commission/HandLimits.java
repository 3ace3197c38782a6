package org.benchstroke.commission;

import java.util.stream.Stream;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.unit.UnitType;

/**
 * The currents that may be set by hand: the unit's signal range, extended to the currents of its
 * signal loss, as far as the source reaches.
 *
 * @param low the smallest
 * @param high the largest
 * @param signal the unit's signal range: outside it the unit may take the signal for lost
 */
record HandLimits(Current low, Current high, SignalRange signal) {
  private static final double ROUNDING_MILLIAMPS = 1e-9;

  static HandLimits of(UnitType unit, SignalSource source) {
    Current low = currents(unit).min(Current::compareTo).orElseThrow();
    Current high = currents(unit).max(Current::compareTo).orElseThrow();
    return new HandLimits(
        low.compareTo(source.lowest()) < 0 ? source.lowest() : low,
        high.compareTo(source.highest()) > 0 ? source.highest() : high,
        unit.signal());
  }

  private static Stream<Current> currents(UnitType unit) {
    return Stream.concat(
        Stream.of(unit.signal().zero(), unit.signal().full()), unit.signalLoss().currents());
  }

  boolean allows(Current current) {
    return inside(current, low, high);
  }

  /** Whether the unit takes it for a signal. */
  boolean isSignal(Current current) {
    boolean rising = signal.spanMilliamps() > 0;
    return rising
        ? inside(current, signal.zero(), signal.full())
        : inside(current, signal.full(), signal.zero());
  }

  private static boolean inside(Current current, Current low, Current high) {
    return current.milliamps() >= low.milliamps() - ROUNDING_MILLIAMPS
        && current.milliamps() <= high.milliamps() + ROUNDING_MILLIAMPS;
  }
}
