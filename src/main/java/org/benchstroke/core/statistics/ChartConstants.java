package org.benchstroke.core.statistics;

import org.apache.commons.math3.special.Gamma;

/**
 * Constants of the range of n normal values, n from 2 to 10. d2 and d3 are the mean and the
 * deviation of that range for σ = 1, by numerical integration; printed tables (NIST/SEMATECH
 * e-Handbook 6.3.2.1, ASTM) agree to their three decimals. Stateless.
 */
public final class ChartConstants {
  /** The largest subgroup whose range is used: the range of a larger one wastes what is in it. */
  public static final int LARGEST = 10;

  private static final double[] D2 = {
    1.128379, 1.692569, 2.058751, 2.325929, 2.534413, 2.704357, 2.847201, 2.970026, 3.077505
  };
  private static final double[] D3 = {
    0.85250, 0.88837, 0.87981, 0.86408, 0.84804, 0.83321, 0.81983, 0.80783, 0.79705
  };

  private ChartConstants() {}

  /** The mean range of n values, in σ. */
  public static double d2(int n) {
    return D2[index(n)];
  }

  /** The standard deviation of that range, in σ. */
  public static double d3(int n) {
    return D3[index(n)];
  }

  /** The mean of the standard deviation of n values, in σ; n at least 2. */
  public static double c4(int n) {
    return Math.sqrt(2.0 / (n - 1.0))
        * Math.exp(Gamma.logGamma(n / 2.0) - Gamma.logGamma((n - 1.0) / 2.0));
  }

  /** Limits of means: so many mean ranges from the centre. */
  public static double a2(int n) {
    return 3.0 / (d2(n) * Math.sqrt(n));
  }

  /** The lower limit of ranges, in mean ranges; never below 0. */
  public static double lowerRange(int n) {
    return Math.max(0.0, 1.0 - 3.0 * d3(n) / d2(n));
  }

  /** The upper limit of ranges, in mean ranges. */
  public static double upperRange(int n) {
    return 1.0 + 3.0 * d3(n) / d2(n);
  }

  private static int index(int n) {
    if (n < 2 || n > LARGEST) {
      throw new IllegalArgumentException(
          "a range is used of 2 to " + LARGEST + " values, not of " + n);
    }
    return n - 2;
  }
}
