package org.benchstroke.core.quantity;

/**
 * An electric current of a signal loop.
 *
 * <p>Unit: milliampere. Any finite value; nothing here clips. Immutable, safe for any thread.
 *
 * @param milliamps the current in mA
 */
public record Current(double milliamps) implements Comparable<Current> {
  public Current {
    if (!Double.isFinite(milliamps)) {
      throw new IllegalArgumentException("a current must be finite, not " + milliamps + " mA");
    }
  }

  public static Current ofMilliamps(double milliamps) {
    return new Current(milliamps);
  }

  public double amps() {
    return milliamps / 1000.0;
  }

  public Current minus(Current other) {
    return new Current(milliamps - other.milliamps);
  }

  @Override
  public int compareTo(Current other) {
    return Double.compare(milliamps, other.milliamps);
  }

  @Override
  public String toString() {
    return Numbers.fixed(milliamps, 3) + " mA";
  }
}
