package org.benchstroke.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * How far a unit still goes after it was read at rest: a creep too slow for the rest rule. It is
 * looked for in all windows at rest of a run that were approached from the same side, together: one
 * window tells too little. If their mean slope can't be chance, the remaining way of an exponential
 * is fitted for each of several time constants; of those that the windows don't exclude the
 * furthest counts. A drift that never ends is bounded as one of the longest. Pure functions.
 */
public final class Creep {
  /** A slope this unlikely is no chance; each side of each run is asked once. Our own choice. */
  private static final double FALSE_PROBABILITY = 0.002;

  /** Twice the longest creep that is thought of, so that it is bounded, too. Our own choice, s. */
  private static final double[] TIME_CONSTANTS = {
    0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 4, 6, 8, 11, 15, 20, 30, 45, 60, 90, 120
  };

  /** Twice the log likelihood ratio beyond which a time constant is excluded: 95 %, χ² of one. */
  private static final double EXCLUDED = 3.84;

  /**
   * Slopes that scatter by less than this share of what their own noise explains are no independent
   * ones, and tell no more than one: of ten that are, one set in some 4000. Our own choice.
   */
  private static final double ALIKE = 0.3;

  private static final double SURE = 1.96;
  private static final int FEWEST_WINDOWS = 4;
  private static final int FEWEST_SAMPLES = 5;

  private Creep() {}

  /**
   * The bound of what is still to come after the mean of the readings in such a window, %; 0 where
   * no creep shows.
   *
   * @param windows the position at rest, approached from one side
   * @param resolutionPercent the step of the reading, %
   */
  public static double beyondPercent(List<Trace> windows, double resolutionPercent) {
    List<Trace> used = windows.stream().filter(w -> w.size() >= FEWEST_SAMPLES).toList();
    if (used.size() < FEWEST_WINDOWS || !slopes(used, resolutionPercent)) {
      return 0.0;
    }
    List<Fit> fits = Arrays.stream(TIME_CONSTANTS).mapToObj(t -> Fit.of(used, t)).toList();
    double least = fits.stream().mapToDouble(Fit::squares).min().orElseThrow();
    double degrees = used.stream().mapToInt(w -> w.size() - 1).sum() - 1.0;
    // What the rounding to a step leaves is no smaller than its own scatter.
    double variance = Math.max(least / degrees, resolutionPercent * resolutionPercent / 12.0);
    double furthest = 0.0;
    for (Fit fit : fits) {
      if (fit.squares() - least <= EXCLUDED * variance) {
        furthest = Math.max(furthest, fit.beyond());
      }
    }
    return furthest;
  }

  /** Whether the mean slope is more than the slopes' scatter, the noise and a step explain. */
  private static boolean slopes(List<Trace> windows, double resolution) {
    List<Double> slopes = new ArrayList<>();
    double squares = 0.0;
    for (Trace window : windows) {
      double[] seconds = new double[window.size()];
      for (int i = 0; i < seconds.length; i++) {
        seconds[i] = window.seconds(i);
      }
      double spread = scatter(seconds);
      double slope = product(seconds, window) / spread;
      slopes.add(slope);
      double left = aroundMean(window) - slope * slope * spread;
      double one = Math.max(0.0, left) / (seconds.length - 2.0) + resolution * resolution / 12.0;
      squares += one / spread;
    }
    Spread found = Spread.of(slopes);
    int n = slopes.size();
    double own = Math.sqrt(squares / n);
    double independent = found.deviation() < ALIKE * own ? 1.0 : n;
    double standard = Math.max(found.deviation(), own) / Math.sqrt(independent);
    double factor =
        new TDistribution(n - 1.0).inverseCumulativeProbability(1.0 - FALSE_PROBABILITY / 2.0);
    return Math.abs(found.mean()) > factor * standard;
  }

  /**
   * One time constant.
   *
   * @param squares what it leaves, with one amplitude for all windows
   * @param beyond how far beyond the mean of a window it may still go, %
   */
  private record Fit(double squares, double beyond) {
    static Fit of(List<Trace> windows, double timeConstant) {
      List<Double> amplitudes = new ArrayList<>();
      double products = 0.0;
      double spread = 0.0;
      double own = 0.0;
      double mean = 0.0;
      for (Trace window : windows) {
        double end = window.seconds(window.size() - 1);
        double[] shape = new double[window.size()];
        for (int i = 0; i < shape.length; i++) {
          shape[i] = Math.exp((end - window.seconds(i)) / timeConstant);
        }
        double each = product(shape, window);
        double squares = scatter(shape);
        amplitudes.add(each / squares);
        products += each;
        spread += squares;
        own += aroundMean(window);
        mean += Arrays.stream(shape).average().orElseThrow() / windows.size();
      }
      double amplitude = products / spread;
      double standard = Spread.of(amplitudes).ofMean();
      double beyond = (Math.abs(amplitude) + SURE * standard) * mean;
      return new Fit(own - products * products / spread, beyond);
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
