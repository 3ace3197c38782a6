package org.benchstroke.core.model;

import net.jafama.StrictFastMath;

/**
 * How a characteristic departs from the straight line between its ends, where it departs by
 * nothing. Immutable.
 *
 * @param percent by how much at most, % of span, ±20; the sign is that of its first side
 * @param shape how it goes along the travel
 */
public record Bow(double percent, Shape shape) {
  /** Straight. */
  public static final Bow NONE = new Bow(0.0, Shape.S);

  /** A triangle's corner is here, as a share of the travel. */
  private static final double CORNER_AT = 0.3;

  /** The project's own simplifications of what levers and loaded tracks do. */
  public enum Shape {
    /** To one side up to mid travel, to the other beyond: two arms that are not parallel there. */
    S("s"),
    /** To one side, half a sine wave. */
    ARC("arc"),
    /** To one side, a parabola: a track with a load on its wiper. */
    PARABOLA("parabola"),
    /** To one side, two straight lines with a corner at 30 %. */
    CORNER("corner");

    private final String key;

    Shape(String key) {
      this.key = key;
    }

    /** The word for it in files. */
    public String key() {
      return key;
    }
  }

  public Bow {
    Require.within("bow, %,", percent, -20, 20);
  }

  /**
   * By how much it is off at a share of the travel, % of span; beyond the ends, as its formula has
   * it.
   */
  double at(double share) {
    if (percent == 0.0) {
      return 0.0;
    }
    return percent
        * switch (shape) {
          case S -> StrictFastMath.sin(2.0 * Math.PI * share);
          case ARC -> StrictFastMath.sin(Math.PI * share);
          case PARABOLA -> 4.0 * share * (1.0 - share);
          case CORNER ->
              Math.max(0.0, Math.min(share / CORNER_AT, (1.0 - share) / (1.0 - CORNER_AT)));
        };
  }
}
