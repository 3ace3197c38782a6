package org.benchstroke.core.analysis;

import org.benchstroke.core.analysis.MotionRule.Seen;

/**
 * The search for the change of the signal at which a unit moves, as a state machine: it says what
 * to do next and is told what was seen. After an approach the signal changes in coarse steps until
 * the unit moves; then the bracket is halved until it is no wider than the finest step. A unit that
 * moved stands elsewhere, so it must be approached anew before the next change; one that stood is
 * asked for more at once. With the coarse step equal to the finest it is the plain staircase. Units
 * are % of travel. No clock, no instruments; one thread.
 *
 * <p>The result is low + step/2 for the plain staircase, which is total − δ/2; its standard
 * uncertainty is (high − low)/(2√3) (rectangular, JCGM 100:2008 4.3.7).
 */
public final class Staircase {
  private static final double ROUNDING = 1.0e-9;

  private final double coarse;
  private final double finest;
  private final double most;
  private final int retakes;
  private double low;
  private double high = Double.POSITIVE_INFINITY;
  private boolean come = true;
  private int unsound;
  private int comings;
  private int probes;

  /** What to do next. */
  public sealed interface Next {
    /** Approach the place anew, one way. */
    record Come() implements Next {}

    /**
     * Change the signal, in all since the approach by this much.
     *
     * @param totalPercent above 0
     */
    record Probe(double totalPercent) implements Next {}

    /**
     * The search is over: it moves at a change between the two.
     *
     * @param lowPercent the largest change at which it stood
     * @param highPercent the smallest at which it moved
     */
    record Found(double lowPercent, double highPercent) implements Next {
      public double middlePercent() {
        return (lowPercent + highPercent) / 2.0;
      }

      /** The bound of the result: it is right within ± this. */
      public double halfPercent() {
        return (highPercent - lowPercent) / 2.0;
      }
    }

    /**
     * The search is over without a result.
     *
     * @param reason in words
     */
    record Nothing(String reason) implements Next {}
  }

  /**
   * A search that has not begun.
   *
   * @param coarse the step until the first motion; the finest times a power of two
   * @param finest the width of the bracket that ends the search, above 0
   * @param most the largest change that is tried
   * @param retakes how often in all an unsound approach or answer is made again
   */
  public Staircase(double coarse, double finest, double most, int retakes) {
    if (!(finest > 0.0 && coarse >= finest && most >= finest && retakes >= 0)) {
      throw new IllegalArgumentException("the steps of a search must be above 0 and in order");
    }
    this.coarse = coarse;
    this.finest = finest;
    this.most = most;
    this.retakes = retakes;
  }

  /** What to do next; the same until something is told. */
  public Next next() {
    if (unsound > retakes) {
      return new Next.Nothing(
          "no clean approach, or no clear answer, in " + comings + " approaches");
    }
    if (high - low <= finest * (1.0 + ROUNDING)) {
      return new Next.Found(low, high);
    }
    double change = Double.isInfinite(high) ? low + coarse : (low + high) / 2.0;
    if (Double.isInfinite(high) && low >= most - ROUNDING) {
      return new Next.Nothing("it did not move");
    }
    return come ? new Next.Come() : new Next.Probe(Math.min(change, most));
  }

  /**
   * The unit was approached.
   *
   * @param clean whether in a single motion that did not come back
   */
  public void came(boolean clean) {
    comings++;
    come = !clean;
    unsound += clean ? 0 : 1;
  }

  /** The change that {@link #next()} asked for was made, and this was seen. */
  public void saw(Seen seen) {
    if (!(next() instanceof Next.Probe probe)) {
      throw new IllegalStateException("no change of the signal was asked for");
    }
    double asked = probe.totalPercent();
    probes++;
    switch (seen) {
      case STOOD -> low = asked;
      case MOVED -> {
        high = asked;
        come = true;
      }
      case MOVED_BACK -> unclear();
    }
  }

  /** After the change that {@link #next()} asked for, no rest was seen. */
  public void unclear() {
    unsound++;
    come = true;
    if (coarse <= finest) {
      // The plain staircase climbs all its steps from one and the same place.
      low = 0.0;
    }
  }

  /** How many changes of the signal were made and answered. */
  public int probes() {
    return probes;
  }

  /** How often the unit was approached. */
  public int comings() {
    return comings;
  }
}
