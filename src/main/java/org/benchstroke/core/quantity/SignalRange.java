package org.benchstroke.core.quantity;

/**
 * The straight line between a loop current and a position: {@code zero} means 0 %, {@code full}
 * means 100 %. A split range is another pair of currents (4..12 mA), a reversed one has its zero
 * above its full (20..4 mA).
 *
 * <p>Source: IEC 60381-1 for 4..20 mA (from memory; the checks of the conversion are in the tests).
 * Immutable, safe for any thread.
 *
 * @param zero the current that means 0 % of travel
 * @param full the current that means 100 % of travel; not equal to {@code zero}
 */
public record SignalRange(Current zero, Current full) {
  /** 4..20 mA, the usual range of a modulating actuator. */
  public static final SignalRange FOUR_TO_TWENTY = of(4.0, 20.0);

  public SignalRange {
    if (zero.milliamps() == full.milliamps()) {
      throw new IllegalArgumentException("a signal range needs two different currents");
    }
  }

  public static SignalRange of(double zeroMilliamps, double fullMilliamps) {
    return new SignalRange(Current.ofMilliamps(zeroMilliamps), Current.ofMilliamps(fullMilliamps));
  }

  /** The position that a current stands for; never clipped. */
  public Position positionAt(Current current) {
    return Position.ofPercent((current.milliamps() - zero.milliamps()) / spanMilliamps() * 100.0);
  }

  /** The current that stands for a position; never clipped. */
  public Current currentAt(Position position) {
    return Current.ofMilliamps(zero.milliamps() + position.percent() / 100.0 * spanMilliamps());
  }

  /** The same range with its ends swapped: the signal of a unit with reversed action. */
  public SignalRange reversed() {
    return of(full.milliamps(), zero.milliamps());
  }

  /** Full minus zero in mA; negative for a reversed range. */
  public double spanMilliamps() {
    return full.milliamps() - zero.milliamps();
  }

  /** The size of one mA in % of travel; positive. */
  public double percentPerMilliamp() {
    return 100.0 / Math.abs(spanMilliamps());
  }

  @Override
  public String toString() {
    return Numbers.plain(zero.milliamps()) + "–" + Numbers.plain(full.milliamps()) + " mA";
  }
}
