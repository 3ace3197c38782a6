package org.benchstroke.core.model;

/**
 * How air flows through an opening, ISO 6358-1:2013 (from memory): in proportion to the pressure
 * before it while it is choked, p2/p1 ≤ b, else times √(1 − ((p2/p1 − b)/(1 − b))²). Absolute
 * pressures, bar; air at the temperature of the room. Stateless.
 */
final class AirFlow {
  /** The room's pressure, bar. */
  static final double ROOM_BAR = 1.013;

  /** The critical ratio b of a valve: common practice, no source. */
  private static final double CRITICAL = 0.3;

  /** Above this the curve is straight: its slope would be infinite at equal pressures. */
  private static final double STRAIGHT = 0.999;

  private AirFlow() {}

  /** Flow from one side to the other through an opening of conductance 1; negative if backwards. */
  static double between(double fromBar, double toBar) {
    return fromBar >= toBar ? fromBar * share(toBar / fromBar) : -toBar * share(fromBar / toBar);
  }

  private static double share(double ratio) {
    if (ratio <= CRITICAL) {
      return 1.0;
    }
    if (ratio > STRAIGHT) {
      return share(STRAIGHT) * (1.0 - ratio) / (1.0 - STRAIGHT);
    }
    double beyond = (ratio - CRITICAL) / (1.0 - CRITICAL);
    return Math.sqrt(1.0 - beyond * beyond);
  }
}
