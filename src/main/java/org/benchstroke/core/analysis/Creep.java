package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * How far a unit may still go after it was read at rest: a creep too slow for the rest rule. All
 * windows at rest of a run that were approached from the same side are looked at together: one
 * window tells too little.
 *
 * <p>A unit either stands or creeps exponentially to its end, with one of several time constants.
 * Each is weighed by the likelihood that the windows give it, the amplitude integrated out. The
 * bound is what holds 95 % of the mixture: where the windows are too short or too noisy to tell a
 * creep, it is what they leave open, but no more than such creeps usually are; where they exclude
 * it, there is none. Pure functions.
 */
public final class Creep {
  /**
   * What is thought of, s: log-evenly. A drift without an end counts as the last. Our own choice.
   */
  private static final double[] TIME_CONSTANTS = {
    0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 4, 6, 8, 11, 15, 20, 30, 45, 60, 90
  };

  /** How likely a unit stands, before any reading. Our own choice. */
  private static final double STANDS = 0.7;

  /**
   * How far such a unit has still to go when its rest begins, a standard deviation, %: twice that
   * is hardly met. Our own choice.
   */
  private static final double USUAL_PERCENT = 0.3;

  /**
   * Slopes that scatter by less than this share of what their own noise explains are no independent
   * ones, and tell no more than one: of ten that are, one set in some 4000. Our own choice.
   */
  private static final double ALIKE = 0.3;

  /** Noise of this share of a step makes roundings to it independent of one another. */
  private static final double DITHER = 0.5;

  private static final double COVERAGE = 0.95;
  private static final int FEWEST_SAMPLES = 5;
  private static final int HALVINGS = 40;

  /** The variance that no arithmetic can tell from none, %². */
  private static final double LEAST_VARIANCE = 1.0e-14;

  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0.0, 1.0);

  private Creep() {}

  /**
   * The bound of what is still to come after the mean of the readings in such a window, %; 0 where
   * the windows exclude a creep.
   *
   * @param windows the position at rest, approached from one side
   * @param resolutionPercent the step of the reading, %
   */
  public static double beyondPercent(List<Trace> windows, double resolutionPercent) {
    List<Trace> used = windows.stream().filter(w -> w.size() >= FEWEST_SAMPLES).toList();
    if (used.isEmpty()) {
      return 0.0;
    }
    List<Fit> fits = Arrays.stream(TIME_CONSTANTS).mapToObj(t -> Fit.of(used, t)).toList();
    double explained = fits.stream().mapToDouble(Fit::explained).max().orElseThrow();
    double variance = variance(used, explained, resolutionPercent);
    List<Left> lefts = new ArrayList<>();
    lefts.add(new Left(Math.log(STANDS), 0.0, 0.0));
    double prior = Math.log((1.0 - STANDS) / TIME_CONSTANTS.length);
    fits.forEach(fit -> lefts.add(fit.left(prior, variance)));
    return held(lefts);
  }

  /**
   * The variance of one reading, so that dividing by their number gives that of what all of them
   * say together: no less than the scatter of the slopes from window to window shows.
   */
  private static double variance(List<Trace> windows, double explained, double step) {
    List<Double> slopes = new ArrayList<>();
    double squares = 0.0;
    double unexplained = 0.0;
    double perVariance = 0.0;
    double readings = 0.0;
    for (Trace window : windows) {
      double[] seconds = new double[window.size()];
      for (int i = 0; i < seconds.length; i++) {
        seconds[i] = window.seconds(i);
      }
      double spread = scatter(seconds);
      double slope = product(seconds, window) / spread;
      double around = aroundMean(window);
      slopes.add(slope);
      unexplained +=
          Math.max(0.0, around - slope * slope * spread) / (seconds.length - 2.0) / spread;
      squares += around;
      perVariance += 1.0 / spread;
      readings += seconds.length;
    }
    double n = slopes.size();
    double noise = Math.max(0.0, squares - explained) / (readings - n - 1.0);
    double rounding = step * step / 12.0;
    // Without noise neighbouring readings share their rounding: a window is worth one of it.
    double shared = noise < DITHER * DITHER * step * step ? readings / n : 1.0;
    double one = Math.max(noise, rounding * shared) + LEAST_VARIANCE;
    if (n < 2) {
      return one;
    }
    double found = Math.pow(Spread.of(slopes).deviation(), 2);
    return found < ALIKE * ALIKE * unexplained / n
        ? n * one
        : Math.max(one, n * found / perVariance);
  }

  /**
   * What one time constant leaves to come.
   *
   * @param log of its weight
   * @param mean what is still to come, %
   * @param standard its standard uncertainty, %
   */
  private record Left(double log, double mean, double standard) {
    double within(double half) {
      return standard > 0.0
          ? NORMAL.cumulativeProbability((half - mean) / standard)
              - NORMAL.cumulativeProbability((-half - mean) / standard)
          : Math.abs(mean) <= half ? 1.0 : 0.0;
    }
  }

  /** The half-width about 0 that holds 95 % of the mixture; 0 if the unit stands that surely. */
  private static double held(List<Left> lefts) {
    double most = lefts.stream().mapToDouble(Left::log).max().orElseThrow();
    double sum = lefts.stream().mapToDouble(l -> Math.exp(l.log() - most)).sum();
    double low = 0.0;
    double high =
        lefts.stream()
            .mapToDouble(l -> Math.abs(l.mean()) + 4.0 * l.standard())
            .max()
            .orElseThrow();
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2.0;
      double within =
          lefts.stream().mapToDouble(l -> Math.exp(l.log() - most) * l.within(middle)).sum() / sum;
      low = within < COVERAGE ? middle : low;
      high = within < COVERAGE ? high : middle;
    }
    return low > 0.0 ? high : 0.0;
  }

  /**
   * One time constant, with one amplitude for all windows.
   *
   * @param amplitude what is still to come when a window begins, %
   * @param spread the variance of a reading over this is that of the amplitude
   * @param share of the amplitude that is still to come after the mean of a window
   */
  private record Fit(double amplitude, double spread, double share) {
    static Fit of(List<Trace> windows, double timeConstant) {
      double products = 0.0;
      double spread = 0.0;
      double share = 0.0;
      for (Trace window : windows) {
        double[] shape = new double[window.size()];
        for (int i = 0; i < shape.length; i++) {
          shape[i] = Math.exp((window.seconds(0) - window.seconds(i)) / timeConstant);
        }
        products += product(shape, window);
        spread += scatter(shape);
        share += Arrays.stream(shape).average().orElseThrow() / windows.size();
      }
      return new Fit(products / spread, spread, share);
    }

    /** The sum of squares that it explains. */
    double explained() {
      return amplitude * amplitude * spread;
    }

    /** With the amplitude that is usual: a conjugate normal prior (Bayes). */
    Left left(double logPrior, double variance) {
      double own = variance / spread;
      double usual = USUAL_PERCENT * USUAL_PERCENT;
      double trust = usual / (usual + own);
      double log = 0.5 * Math.log(own / (usual + own)) + 0.5 * amplitude * amplitude / own * trust;
      return new Left(logPrior + log, amplitude * trust * share, Math.sqrt(trust * own) * share);
    }
  }

  private static double aroundMean(Trace window) {
    Spread own = window.spread();
    return (own.count() - 1.0) * own.deviation() * own.deviation();
  }

  private static double scatter(double[] x) {
    double mean = Arrays.stream(x).average().orElseThrow();
    return Arrays.stream(x).map(v -> (v - mean) * (v - mean)).sum();
  }

  private static double product(double[] x, Trace window) {
    double mean = Arrays.stream(x).average().orElseThrow();
    double level = window.percent(0);
    double sum = 0.0;
    for (int i = 0; i < x.length; i++) {
      sum += (x[i] - mean) * (window.percent(i) - level);
    }
    return sum;
  }
}
