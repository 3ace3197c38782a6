package org.benchstroke.core.statistics;

import java.util.function.Function;
import java.util.stream.IntStream;
import org.apache.commons.math3.stat.StatUtils;

/**
 * The centre and the standard deviation of single values in a baseline. Immutable.
 *
 * @param centre the mean
 * @param sigma above 0
 * @param degrees the degrees of freedom of σ; infinite where it is known
 */
record Scale(double centre, double sigma, double degrees) {
  /** A scale, or why there is none. */
  sealed interface Answer {
    /** A chart by this scale. */
    default ChartAnswer map(Function<Scale, ControlChart> chart) {
      if (this instanceof Found found) {
        return chart.apply(found.scale());
      }
      return ((None) this).why();
    }
  }

  /** There is one. */
  record Found(Scale scale) implements Answer {}

  /** There is none. */
  record None(NoAnswer why) implements Answer {}

  /**
   * σ is the mean moving range ÷ d2, of neighbours that are both in the baseline.
   *
   * @param least how many values there must be to compare with what is known
   */
  static Answer byMovingRange(double[] values, Baseline baseline, int least) {
    finite(values);
    if (baseline instanceof Baseline.Known known) {
      return known(known, values.length, least);
    }
    boolean[] in = baseline.flags(values.length);
    double[] chosen = chosen(values, in);
    if (chosen.length < baseline.needs()) {
      return new None(NoAnswer.tooFew(chosen.length, baseline.needs()));
    }
    double sum = 0.0;
    int ranges = 0;
    for (int i = 1; i < values.length; i++) {
      if (in[i] && in[i - 1]) {
        sum += Math.abs(values[i] - values[i - 1]);
        ranges++;
      }
    }
    if (ranges < Baseline.FEWEST - 1) {
      // a baseline of points that are no neighbours has no moving ranges
      return new None(NoAnswer.tooFew(ranges + 1, Baseline.FEWEST));
    }
    double sigma = sum / ranges / ChartConstants.d2(2);
    return found(StatUtils.mean(chosen), sigma, ofMovingRanges(ranges), chosen.length);
  }

  /** σ is the standard deviation with n − 1. */
  static Answer byDeviation(double[] values, Baseline baseline) {
    finite(values);
    if (baseline instanceof Baseline.Known known) {
      return known(known, values.length, 1);
    }
    double[] chosen = chosen(values, baseline.flags(values.length));
    if (chosen.length < baseline.needs()) {
      return new None(NoAnswer.tooFew(chosen.length, baseline.needs()));
    }
    // the mean of equal values may be a last bit beside them, and give a deviation of that bit
    double sigma = Charts.range(chosen) > 0.0 ? Math.sqrt(StatUtils.variance(chosen)) : 0.0;
    return found(StatUtils.mean(chosen), sigma, chosen.length - 1.0, chosen.length);
  }

  /** σ is the mean range of the subgroups ÷ d2. */
  static Answer bySubgroups(double[][] groups, Baseline baseline) {
    int size = groups.length == 0 ? 2 : groups[0].length;
    for (double[] group : groups) {
      finite(group);
      if (group.length != size) {
        throw new IllegalArgumentException(
            "subgroups have one size, not " + size + " and " + group.length);
      }
    }
    if (baseline instanceof Baseline.Known known) {
      return known(known, groups.length, 1);
    }
    boolean[] in = baseline.flags(groups.length);
    double means = 0.0;
    double ranges = 0.0;
    int count = 0;
    for (int i = 0; i < groups.length; i++) {
      if (in[i]) {
        means += StatUtils.mean(groups[i]);
        ranges += Charts.range(groups[i]);
        count++;
      }
    }
    if (count < baseline.needs()) {
      return new None(NoAnswer.tooFew(count, baseline.needs()));
    }
    double sigma = ranges / count / ChartConstants.d2(size);
    return found(means / count, sigma, ofRanges(size, count), count);
  }

  /**
   * The degrees of freedom that a mean range is worth: those of a χ whose relative variance is that
   * of the mean range, 1/(2ν) to the first order (Patnaik 1950, from memory).
   */
  static double ofRanges(int size, int count) {
    double relative = ChartConstants.d3(size) / ChartConstants.d2(size);
    return count / (2.0 * relative * relative);
  }

  /**
   * As {@link #ofRanges}, of moving ranges, whose neighbours share a value. Their covariance is
   * E|x·y| − 4/π for normal x, y of variance 2 and correlation −1/2, and E|x·y| is (4/π)(√(1 − ρ²)
   * + ρ·asin ρ), derived here.
   */
  static double ofMovingRanges(int count) {
    double mean = 4.0 / Math.PI;
    double shared = mean * (Math.sqrt(0.75) + 0.5 * Math.asin(0.5)) - mean;
    double variance = (count * (2.0 - mean) + 2.0 * (count - 1) * shared) / count / count;
    return mean / (2.0 * variance);
  }

  /** It needs nothing but something to compare with it. */
  private static Answer known(Baseline.Known known, int has, int needs) {
    return has < needs
        ? new None(NoAnswer.tooFew(has, needs))
        : new Found(new Scale(known.centre(), known.sigma(), Double.POSITIVE_INFINITY));
  }

  private static Answer found(double centre, double sigma, double degrees, int count) {
    return sigma > 0.0
        ? new Found(new Scale(centre, sigma, degrees))
        : new None(NoAnswer.allIdentical(count));
  }

  private static double[] chosen(double[] values, boolean[] in) {
    return IntStream.range(0, values.length)
        .filter(i -> in[i])
        .mapToDouble(i -> values[i])
        .toArray();
  }

  static void finite(double[] values) {
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException("value " + i + " (from 0) is no number: " + values[i]);
      }
    }
  }
}
