package org.benchstroke.core.model;

/**
 * A stem in its packing or seat, driven through a spring of the stiffness k: it sticks up to the
 * torque T_s, then slides until the spring carries T_c. All as the spring's twist. Immutable.
 *
 * @param stickPercent T_s/k, the twist that sets a stuck stem free, % of span, 0..20
 * @param slidePercent T_c/k, the twist at which the friction alone would bring it to rest, % of
 *     span, 0..{@code stickPercent}
 * @param overshoot how far its mass carries it beyond that, × (T_s − T_c)/k, 0..1: 0 is heavily
 *     damped, 1 undamped
 * @param fromPercent where the friction begins, stem position, % of span, −50..150
 * @param toPercent where it ends
 */
public record FrictionParameters(
    double stickPercent,
    double slidePercent,
    double overshoot,
    double fromPercent,
    double toPercent) {
  /** Everywhere, and beyond the stops. */
  private static final double LOWEST = -50.0;

  private static final double HIGHEST = 150.0;

  public FrictionParameters {
    Require.within("sticking twist, %,", stickPercent, 0, 20);
    Require.within("sliding twist, %,", slidePercent, 0, stickPercent);
    Require.within("overshoot of the slip", overshoot, 0, 1);
    Require.within("friction's beginning, %,", fromPercent, LOWEST, HIGHEST);
    Require.within("friction's end, %,", toPercent, fromPercent, HIGHEST);
  }

  static FrictionParameters baseline() {
    return everywhere(0.0, 0.0);
  }

  /** The same friction along the whole travel, without overshoot. */
  public static FrictionParameters everywhere(double stickPercent, double slidePercent) {
    return new FrictionParameters(stickPercent, slidePercent, 0.0, LOWEST, HIGHEST);
  }
}
