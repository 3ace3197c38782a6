package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * One way in which neighbouring readings may go together: a share of their variance follows an
 * autoregression of first order, the rest is independent from reading to reading. A moving average,
 * a filter, steps of the reading, a slow wander and sampled hum are each near enough to one of the
 * {@link #all()}. Immutable.
 *
 * @param follows the correlation of the following share from one reading to the next, 0 to 0.99
 * @param share of the variance that follows, 0 to 1
 * @param prior how likely it is before any reading; our own choice
 */
record NoisePattern(double follows, double share, double prior) {
  private static final double[] FOLLOWS = {0.3, 0.5, 0.65, 0.8, 0.9, 0.95, 0.98, 0.99};
  private static final double[] SHARES = {0.25, 0.5, 0.75, 1.0};
  private static final double INDEPENDENT = 0.7;
  private static final List<NoisePattern> ALL = grid();

  /** All that are considered; the first is that of independent readings. */
  static List<NoisePattern> all() {
    return ALL;
  }

  private static List<NoisePattern> grid() {
    List<NoisePattern> all = new ArrayList<>();
    all.add(new NoisePattern(0.0, 0.0, INDEPENDENT));
    double each = (1.0 - INDEPENDENT) / (FOLLOWS.length * SHARES.length);
    for (double follows : FOLLOWS) {
      for (double share : SHARES) {
        all.add(new NoisePattern(follows, share, each));
      }
    }
    return List.copyOf(all);
  }

  /** The correlation of two readings that lie so many apart. */
  double correlation(int apart) {
    return apart == 0 ? 1.0 : share * Math.pow(follows, apart);
  }

  /** The variance of the mean of n readings as a share of that of one (JCGM 100:2008 F.1.2). */
  double ofMean(int n) {
    double sum = n;
    for (int k = 1; k < n; k++) {
      sum += 2.0 * (n - k) * correlation(k);
    }
    return sum / ((double) n * n);
  }

  /** What s² of n readings is on the average, as a share of the variance of one. */
  double shown(int n) {
    return n * (1.0 - ofMean(n)) / (n - 1.0);
  }

  /**
   * The degrees of freedom of s² of n readings, 2·E²/Var for normal readings: with M the removal of
   * the mean and R the correlations, tr(MR)² ÷ tr(MRMR).
   */
  double degrees(int n) {
    double[] rows = new double[n];
    double squares = 0.0;
    for (int k = 0; k < n; k++) {
      double c = correlation(k);
      squares += (k == 0 ? 1.0 : 2.0) * (n - k) * c * c;
      for (int i = 0; i + k < n; i++) {
        rows[i] += c;
        rows[i + k] += k == 0 ? 0.0 : c;
      }
    }
    double all = 0.0;
    double allSquares = 0.0;
    for (double row : rows) {
      all += row;
      allSquares += row * row;
    }
    double trace = n - all / n;
    return trace * trace / (squares - 2.0 * allSquares / n + all * all / ((double) n * n));
  }

  /** The log likelihood of windows, whose means and scatters are integrated out. */
  double logLikelihood(List<double[]> windows) {
    Map<Integer, Whitening> whitenings = new HashMap<>();
    double sum = 0.0;
    for (double[] window : windows) {
      sum +=
          whitenings
              .computeIfAbsent(window.length, n -> Whitening.of(this, n))
              .logLikelihood(window);
    }
    return sum;
  }

  /** Makes readings of this pattern independent, by the recursion of Levinson and Durbin. */
  private static final class Whitening {
    private final double[][] predictors;
    private final double[] variances;
    private final double[] ones;

    private Whitening(double[][] predictors, double[] variances) {
      this.predictors = predictors;
      this.variances = variances;
      double[] raw = new double[variances.length];
      Arrays.fill(raw, 1.0);
      this.ones = whitened(raw, 0.0);
    }

    static Whitening of(NoisePattern pattern, int n) {
      double[][] predictors = new double[n][];
      double[] variances = new double[n];
      predictors[0] = new double[0];
      variances[0] = 1.0;
      for (int t = 1; t < n; t++) {
        double[] before = predictors[t - 1];
        double unexplained = pattern.correlation(t);
        for (int i = 0; i < t - 1; i++) {
          unexplained -= before[i] * pattern.correlation(t - 1 - i);
        }
        double last = unexplained / variances[t - 1];
        double[] now = new double[t];
        for (int i = 0; i < t - 1; i++) {
          now[i] = before[i] - last * before[t - 2 - i];
        }
        now[t - 1] = last;
        predictors[t] = now;
        variances[t] = variances[t - 1] * (1.0 - last * last);
      }
      return new Whitening(predictors, variances);
    }

    private double[] whitened(double[] values, double less) {
      double[] white = new double[values.length];
      for (int t = 0; t < white.length; t++) {
        double rest = values[t] - less;
        for (int i = 0; i < t; i++) {
          rest -= predictors[t][i] * (values[t - 1 - i] - less);
        }
        white[t] = rest / Math.sqrt(variances[t]);
      }
      return white;
    }

    double logLikelihood(double[] window) {
      // About its first reading, so that a large mean doesn't cost digits.
      double[] white = whitened(window, window[0]);
      double logs = 0.0;
      double own = 0.0;
      double cross = 0.0;
      double one = 0.0;
      for (int t = 0; t < white.length; t++) {
        logs += Math.log(variances[t]);
        own += white[t] * white[t];
        cross += white[t] * ones[t];
        one += ones[t] * ones[t];
      }
      double squares = own - cross * cross / one;
      return -0.5 * (logs + Math.log(one) + (white.length - 1.0) * Math.log(squares));
    }
  }
}
