package org.benchstroke.core.uncertainty;

/**
 * What an input of a budget has in common with others of it. Inputs of one tie become one line
 * ({@link Budget}); those without are independent of all others. Immutable.
 *
 * @param kind what they share
 * @param of what ties them: equal for all that belong together
 * @param words what their one line is called
 */
public record Tie(Kind kind, String of, String words) {
  /** How inputs add up that have something in common. */
  public enum Kind {
    /** Nothing in common. */
    NONE,
    /**
     * Errors of one instrument at several places, or of several channels of one box. A data sheet
     * bounds the error and says nothing of its shape: they may be alike, opposed or bowed (JCGM
     * 100:2008 5.2), so that the bounds add up, whatever the signs of their sensitivities.
     */
    ONE_INSTRUMENT,
    /**
     * One error that is the same at all of them: it counts with the signs of its sensitivities, so
     * that it cancels in a difference (JCGM 100:2008 5.2.2, a correlation of 1).
     */
    ALIKE,
    /**
     * Independent errors whose standard deviation is one estimate: the squares add up, and its
     * degrees of freedom count once. The sum of Welch and Satterthwaite takes independent estimates
     * (JCGM 100:2008 G.4.1).
     */
    ONE_ESTIMATE
  }

  /** Of an input that is independent of all others. */
  public static final Tie NONE = new Tie(Kind.NONE, "", "");
}
