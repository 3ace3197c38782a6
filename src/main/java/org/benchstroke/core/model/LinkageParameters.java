package org.benchstroke.core.model;

/**
 * How the stem stands to the output shaft. Immutable.
 *
 * @param bend how far the linkage between them bends: so far the stem is ahead, % of span, ±10
 * @param quadrantDegrees by what angle the stem was mounted off, °, ±180
 */
public record LinkageParameters(Bow bend, double quadrantDegrees) {
  /** Straight, and mounted right. */
  public static final LinkageParameters NONE = new LinkageParameters(Bow.NONE, 0.0);

  public LinkageParameters {
    Require.within("bend of the linkage, %,", bend.percent(), -10, 10);
    Require.within("quadrant, °,", quadrantDegrees, -180, 180);
  }
}
