package org.benchstroke;

/**
 * How many made-up units, files or runs a counting test draws. Every build draws the first few of
 * them, by the same seeds; {@code -Dcount=all} draws all, as the published pages state.
 */
public final class Counted {
  private static final boolean ALL = "all".equals(System.getProperty("count"));
  private static final int SHARE = 8;

  private Counted() {}

  /** Of so many, those that this build draws. */
  public static int of(int all) {
    return ALL ? all : all / SHARE;
  }

  /**
   * Whether this build draws one of many that stand in a row, such as the bytes of a file: each
   * eighth of them.
   */
  public static boolean draws(int number) {
    return ALL || number % SHARE == 0;
  }

  /**
   * How far a counted share may lie beyond its bound by chance, %: nothing where all are drawn,
   * else three standard deviations of a share at that bound (binomial distribution).
   *
   * @param boundPercent the bound, %
   * @param units how many were drawn
   */
  public static double chancePercent(double boundPercent, int units) {
    double p = boundPercent / 100.0;
    return ALL ? 0.0 : 300.0 * Math.sqrt(p * (1.0 - p) / units);
  }
}
