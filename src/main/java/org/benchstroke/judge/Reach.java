package org.benchstroke.judge;

/**
 * Where a unit can be that follows its setpoint: one that starts late and goes at half of its speed
 * is the last in it, one that is there at once the first. In % of travel. One thread.
 */
final class Reach {
  private static final double SLOWEST_SHARE = 0.5;

  private final double slowest;
  private double low;
  private double high;

  /**
   * From where it stands.
   *
   * @param speed its nominal speed, %/s
   */
  Reach(double at, double speed) {
    this.low = at;
    this.high = at;
    this.slowest = SLOWEST_SHARE * speed;
  }

  /**
   * Some time later.
   *
   * @param seconds how much later
   * @param least the least setpoint that it may be going to by now, %
   * @param most the greatest
   */
  void later(double seconds, double least, double most) {
    double way = slowest * seconds;
    low = Math.min(least, low + way);
    high = Math.max(most, high - way);
  }

  /** How far a place lies outside of it, %; 0 within. */
  double outside(double at) {
    return Math.max(0.0, Math.max(low - at, at - high));
  }
}
