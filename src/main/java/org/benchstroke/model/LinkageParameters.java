package org.benchstroke.model;

/**
 * How the stem stands to the output shaft. Immutable.
 *
 * @param bendPercent how far the linkage between them bends, % of span, ±10: at 25 % of travel the
 *     stem is ahead by so much, at 75 % behind
 * @param quadrantDegrees by what angle the stem was mounted off, °, ±180
 */
public record LinkageParameters(double bendPercent, double quadrantDegrees) {
  /** Straight, and mounted right. */
  public static final LinkageParameters NONE = new LinkageParameters(0.0, 0.0);

  public LinkageParameters {
    Require.within("bend of the linkage, %,", bendPercent, -10, 10);
    Require.within("quadrant, °,", quadrantDegrees, -180, 180);
  }
}
