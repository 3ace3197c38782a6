package org.benchstroke.core.analysis;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Whether a position at rest is another one than before: the means of two windows differ by more
 * than their scatter explains, plus one step of the reading, whose rounding no averaging undoes.
 * For readings whose noise is independent from one to the next, a unit that stands still is taken
 * for moved with no more than the stated probability (two-sample test with pooled deviation,
 * Student's t: a standard result of statistics). Safe for any thread.
 */
public final class MotionRule {
  /** Once in a hundred thousand comparisons: a whole test makes a few hundred. Our own choice. */
  public static final double USUAL_FALSE_PROBABILITY = 1.0e-5;

  /** Two means that are a step apart must not differ by more for the computer's own rounding. */
  private static final double ROUNDING_PERCENT = 1.0e-9;

  private final double resolutionPercent;
  private final double falseProbability;
  private final RestNoise neighbours;

  /** Windows are of few sizes, each has one quantile, and that takes long to find. */
  private final Map<Double, Double> factors = new ConcurrentHashMap<>();

  /** Of readings that are taken to be independent of one another. */
  public MotionRule(double resolutionPercent, double falseProbability) {
    this(resolutionPercent, falseProbability, RestNoise.INDEPENDENT);
  }

  /**
   * A rule.
   *
   * @param resolutionPercent the step of the reading, %, ≥ 0
   * @param falseProbability how likely noise alone may be taken for motion, each time, 0 to 0.5
   * @param neighbours how neighbouring readings go together, where that is known
   */
  public MotionRule(double resolutionPercent, double falseProbability, RestNoise neighbours) {
    if (!(resolutionPercent >= 0.0 && falseProbability > 0.0 && falseProbability < 0.5)) {
      throw new IllegalArgumentException(
          "a motion rule needs a resolution of 0 or more and a probability between 0 and 0.5");
    }
    this.resolutionPercent = resolutionPercent;
    this.falseProbability = falseProbability;
    this.neighbours = neighbours;
  }

  /** How a unit answered a change of the signal. */
  public enum Seen {
    /** It stands where it stood. */
    STOOD,
    /** It went the way of the signal. */
    MOVED,
    /** It went the other way. */
    MOVED_BACK
  }

  /**
   * What happened between two windows at rest.
   *
   * @param sign 1 if the signal rose, −1 if it fell
   */
  public Seen seen(Spread before, Spread after, int sign) {
    double change = after.mean() - before.mean();
    if (Math.abs(change) <= thresholdPercent(before, after)) {
      return Seen.STOOD;
    }
    return change * sign > 0.0 ? Seen.MOVED : Seen.MOVED_BACK;
  }

  /** What the means of two windows may differ by without a motion, %. */
  public double thresholdPercent(Spread before, Spread after) {
    if (before.count() + after.count() < 3) {
      return Double.POSITIVE_INFINITY;
    }
    double pooled =
        ((before.count() - 1) * before.deviation() * before.deviation()
                + (after.count() - 1) * after.deviation() * after.deviation())
            / (before.count() + after.count() - 2.0);
    RestNoise.Known first = mean(pooled, before.count());
    RestNoise.Known second = mean(pooled, after.count());
    double ofDifference = Math.hypot(first.standard(), second.standard());
    return factor(first.degrees() + second.degrees()) * ofDifference
        + resolutionPercent
        + ROUNDING_PERCENT;
  }

  private RestNoise.Known mean(double variance, int count) {
    double deviation = Math.sqrt(variance);
    return count < 2 ? new RestNoise.Known(deviation, 0.0) : neighbours.ofMean(deviation, count);
  }

  private double factor(double degrees) {
    return factors.computeIfAbsent(
        degrees,
        d -> new TDistribution(d).inverseCumulativeProbability(1.0 - falseProbability / 2.0));
  }
}
