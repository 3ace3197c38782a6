package org.benchstroke.core.quantity;

/**
 * A position as a share of travel: 0 % is the closed end of the calibrated span, 100 % the open
 * end.
 *
 * <p>Unit: percent of travel. Values outside 0..100 are legal (a unit may over-travel); nothing
 * here clips. Immutable, safe for any thread.
 *
 * @param percent the position in % of travel
 */
public record Position(double percent) implements Comparable<Position> {
  public Position {
    if (!Double.isFinite(percent)) {
      throw new IllegalArgumentException("a position must be finite, not " + percent + " %");
    }
  }

  public static Position ofPercent(double percent) {
    return new Position(percent);
  }

  @Override
  public int compareTo(Position other) {
    return Double.compare(percent, other.percent);
  }

  @Override
  public String toString() {
    return Numbers.fixed(percent, 2) + " %";
  }
}
