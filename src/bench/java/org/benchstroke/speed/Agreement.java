package org.benchstroke.speed;

/**
 * How well two analyses of the same trace agree.
 *
 * @param worst the greatest difference of two figures, as a share of the largest of their kind
 * @param where which kind it is of
 */
record Agreement(double worst, String where) {
  /** What the order of additions may change, and far less than any uncertainty. */
  private static final double CLOSE = 1.0e-8;

  /**
   * Of figures as {@link WholeAnalysis#stepAndStatic} gives them.
   *
   * @throws IllegalStateException if they don't agree
   */
  static Agreement of(double[] own, double[] other) {
    if (own.length != other.length) {
      throw new IllegalStateException(own.length + " figures against " + other.length);
    }
    int width = WholeAnalysis.STEP_MEASURES.size();
    int statics = own.length - WholeAnalysis.STATIC_MEASURES.size();
    Agreement all = new Agreement(0.0, "none");
    for (int i = 0; i < width; i++) {
      double apart = apart(own, other, i, statics, width);
      all = all.or(new Agreement(apart, WholeAnalysis.STEP_MEASURES.get(i)));
    }
    for (int i = statics; i < own.length; i++) {
      double apart = apart(own, other, i, i + 1, 1);
      all = all.or(new Agreement(apart, WholeAnalysis.STATIC_MEASURES.get(i - statics)));
    }
    if (!(all.worst <= CLOSE)) {
      throw new IllegalStateException(
          "the figures do not agree: " + all.where + " differs by " + all.worst);
    }
    return all;
  }

  /** The worse of the two; a difference that is no number is the worst. */
  private Agreement or(Agreement other) {
    return other.worst <= worst ? this : other;
  }

  private static double apart(double[] a, double[] b, int from, int to, int stride) {
    double largest = Double.MIN_NORMAL;
    double apart = 0.0;
    for (int i = from; i < to; i += stride) {
      largest = Math.max(largest, Math.abs(a[i]));
      apart = Math.max(apart, Math.abs(a[i] - b[i]));
    }
    return apart / largest;
  }
}
