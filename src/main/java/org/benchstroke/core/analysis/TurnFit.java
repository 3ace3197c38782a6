package org.benchstroke.core.analysis;

import java.util.Arrays;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.SingularMatrixException;

/**
 * The readings about one turn, and the shapes that may lie behind them: level − a·(t₁ − t)^p before
 * it and level − b·(t − t₂)^q after it, with t₁ = t₂ where it turns at once and a plateau between
 * them where it stands for a while. p = q = 1 is the corner of a triangle, 2 the arc of a sine,
 * more a creep to the level. Lower turns are turned upside down. Immutable.
 */
final class TurnFit {
  private static final int GRID = 10;
  private static final int HALVINGS = 8;
  private static final double INFINITE = Double.POSITIVE_INFINITY;

  private final double origin;
  private final double span;
  private final double interval;
  private final double[] x;
  private final double[] y;

  /**
   * What one shape makes of the readings.
   *
   * @param squares the sum of squared residuals
   * @param level where it turned, upside down for a lower turn
   * @param leverage the variance of the level as a share of that of one reading
   * @param halfBetween the level lies within ± this, where the turn lies between two readings
   */
  record Fit(double squares, double level, double leverage, double halfBetween) {}

  /**
   * Of at least eight readings.
   *
   * @param seconds rising
   * @param percent higher towards the turn
   */
  TurnFit(double[] seconds, double[] percent) {
    int n = seconds.length;
    this.origin = seconds[0];
    this.span = seconds[n - 1] - origin;
    this.interval = 1.0 / (n - 1.0);
    this.x = Arrays.stream(seconds).map(t -> (t - origin) / span).toArray();
    this.y = percent;
  }

  int readings() {
    return x.length;
  }

  /** The best fit of a shape. */
  Fit of(double p, double q, boolean plateau) {
    double[] best = {INFINITE, 0.5, 0.5};
    for (int i = 0; i <= GRID; i++) {
      for (int j = i; j <= (plateau ? GRID : i); j++) {
        best = better(best, p, q, (double) i / GRID, (double) j / GRID);
      }
    }
    double step = 1.0 / GRID;
    for (int halving = 0; halving < HALVINGS; halving++) {
      step /= 2.0;
      double[] from = best;
      for (int i = -1; i <= 1; i++) {
        for (int j = -1; j <= 1; j++) {
          if (plateau || i == j) {
            best = better(best, p, q, from[1] + i * step, from[2] + j * step);
          }
        }
      }
    }
    return described(p, q, plateau, best[1], best[2]);
  }

  private double[] better(double[] best, double p, double q, double first, double second) {
    if (first > second || first < 0.0 || second > 1.0) {
      return best;
    }
    double squares = solve(p, q, first, second)[0];
    return squares < best[0] ? new double[] {squares, first, second} : best;
  }

  private static double power(double base, double exponent) {
    if (exponent == 1.0) {
      return base;
    }
    double square = base * base;
    if (exponent == 2.0) {
      return square;
    }
    if (exponent == 3.0) {
      return square * base;
    }
    if (exponent == 1.5) {
      return base * Math.sqrt(base);
    }
    return exponent == 6.0 ? square * square * square : Math.pow(base, exponent);
  }

  /** The sum of squares, the level and both factors, by linear least squares. */
  private double[] solve(double p, double q, double first, double second) {
    int n = x.length;
    double l = 0.0;
    double r = 0.0;
    double ll = 0.0;
    double rr = 0.0;
    double ly = 0.0;
    double ry = 0.0;
    double sy = 0.0;
    double yy = 0.0;
    for (int i = 0; i < n; i++) {
      double value = y[i];
      sy += value;
      yy += value * value;
      if (x[i] < first) {
        double g = power(first - x[i], p);
        l += g;
        ll += g * g;
        ly += g * value;
      } else if (x[i] > second) {
        double g = power(x[i] - second, q);
        r += g;
        rr += g * g;
        ry += g * value;
      }
    }
    // No reading lies on both flanks, so that each factor follows from the level.
    double share = (ll > 0.0 ? l * l / ll : 0.0) + (rr > 0.0 ? r * r / rr : 0.0);
    double known = sy - (ll > 0.0 ? l * ly / ll : 0.0) - (rr > 0.0 ? r * ry / rr : 0.0);
    double level = n - share > 1.0e-9 * n ? known / (n - share) : sy / n;
    double a = ll > 0.0 ? Math.max(0.0, (level * l - ly) / ll) : 0.0;
    double b = rr > 0.0 ? Math.max(0.0, (level * r - ry) / rr) : 0.0;
    double squares =
        yy
            - 2.0 * level * sy
            + n * level * level
            + a * (2.0 * ly - 2.0 * level * l + a * ll)
            + b * (2.0 * ry - 2.0 * level * r + b * rr);
    return new double[] {Math.max(0.0, squares), level, a, b};
  }

  private Fit described(double p, double q, boolean plateau, double first, double second) {
    double[] s = solve(p, q, first, second);
    double between = 0.0;
    double level = s[1];
    if (!plateau && (first <= 0.0 || first >= 1.0)) {
      // All readings are on one side: it turned between the last of them and the next.
      double slope = first <= 0.0 ? (q == 1.0 ? s[3] : 0.0) : p == 1.0 ? s[2] : 0.0;
      between = slope * interval / 2.0;
      level += between;
    }
    return new Fit(s[0], level, leverage(p, q, plateau, first, second, s), between);
  }

  private double leverage(
      double p, double q, boolean plateau, double first, double second, double[] s) {
    int k = plateau ? 5 : 4;
    double[][] normal = new double[k][k];
    double[] row = new double[k];
    for (double at : x) {
      row[0] = 1.0;
      double before = Math.max(0.0, first - at);
      double after = Math.max(0.0, at - second);
      row[1] = -power(before, p);
      row[2] = -power(after, q);
      double earlier = before > 0.0 ? -s[2] * p * Math.pow(before, p - 1.0) : 0.0;
      double later =
          after > 0.0 ? s[3] * q * Math.pow(Math.max(after, interval / 8.0), q - 1.0) : 0.0;
      row[3] = plateau ? earlier : earlier + later;
      if (plateau) {
        row[4] = later;
      }
      for (int i = 0; i < k; i++) {
        for (int j = 0; j < k; j++) {
          normal[i][j] += row[i] * row[j];
        }
      }
    }
    for (int i = 0; i < k; i++) {
      // What no reading tells adds nothing to what they tell of the level.
      normal[i][i] = normal[i][i] * (1.0 + 1.0e-9) + 1.0e-12 * normal[0][0];
    }
    try {
      double share =
          new LUDecomposition(new Array2DRowRealMatrix(normal, false))
              .getSolver()
              .getInverse()
              .getEntry(0, 0);
      return share > 0.0 ? Math.min(1.0, share) : 1.0;
    } catch (SingularMatrixException e) {
      return 1.0;
    }
  }
}
