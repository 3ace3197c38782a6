package org.benchstroke.core.uncertainty;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * The distribution of the sum of a budget's inputs, by numerical convolution on a grid: what a
 * Monte Carlo propagation of a linear model converges to (JCGM 101:2008), without its noise.
 *
 * <p>The four largest rectangular inputs keep their shape, smaller ones join the normal part by
 * their variance; type A inputs make one scaled t distribution with the degrees of freedom that
 * Welch–Satterthwaite gives them together.
 */
final class SumShape {
  private static final int CELLS = 401;
  private static final int MIDDLE = CELLS / 2;
  private static final int SHAPED = 4;
  private static final double TAIL = 5.0;
  private static final double NEGLIGIBLE = 1.0e-3;

  private final List<Double> halfWidths = new ArrayList<>();
  private final double normal;
  private final double observed;
  private final double degrees;
  private final double coverage;
  private final double cell;
  private final double[] sum;

  /**
   * The distribution of a sum.
   *
   * @param components its inputs, at least one of them rectangular
   * @param coverage the probability of {@link #halfWidth}: the grid reaches well beyond it
   */
  SumShape(List<Component> components, double coverage) {
    List<Double> rectangular =
        components.stream()
            .filter(c -> c.evaluation() == Component.Evaluation.TYPE_B_RECTANGULAR)
            .map(Component::contribution)
            .sorted(Comparator.reverseOrder())
            .toList();
    double known = 0.0;
    double largest = rectangular.get(0);
    for (int i = 0; i < rectangular.size(); i++) {
      double u = rectangular.get(i);
      if (i < SHAPED && u > NEGLIGIBLE * largest) {
        halfWidths.add(u * Math.sqrt(3.0));
      } else {
        known += u * u;
      }
    }
    double squares = 0.0;
    double fourths = 0.0;
    for (Component c : components) {
      boolean shaped = c.evaluation() == Component.Evaluation.TYPE_B_RECTANGULAR;
      double square = c.contribution() * c.contribution();
      if (!shaped && Double.isInfinite(c.degreesOfFreedom())) {
        known += square;
      } else if (!shaped) {
        squares += square;
        fourths += square * square / c.degreesOfFreedom();
      }
    }
    normal = Math.sqrt(known);
    observed = Math.sqrt(squares);
    degrees = fourths > 0.0 ? squares * squares / fourths : Double.POSITIVE_INFINITY;
    this.coverage = coverage;
    this.cell = cell();
    this.sum = sum();
  }

  /** The half-width around zero that holds the sum with the coverage. */
  double halfWidth() {
    return within(sum, cell, coverage);
  }

  /** The probability that the sum is above a distance of 0 or more. */
  double beyond(double distance) {
    double above = 0.0;
    // Cells that end below it have no share; one more is looked at, for rounding.
    double first = Math.floor(distance / cell - 0.5) + MIDDLE;
    for (int i = (int) Math.max(MIDDLE, Math.min(CELLS, first)); i < CELLS; i++) {
      double low = (i - MIDDLE - 0.5) * cell;
      double share = (low + cell - Math.max(low, distance)) / cell;
      above += sum[i] * Math.min(1.0, Math.max(0.0, share));
    }
    return above;
  }

  private double cell() {
    double bound = halfWidths.stream().mapToDouble(Double::doubleValue).sum();
    double tail = observed > 0.0 ? observed * tQuantile(1.0 - (1.0 - coverage) / 20.0) : 0.0;
    double reach = bound + TAIL * normal + tail;
    return 2.0 * reach / (CELLS - 1);
  }

  private double[] sum() {
    double[] shape = new double[CELLS];
    shape[CELLS / 2] = 1.0;
    // The bounds first: they end within the grid, where tails do not.
    for (double half : halfWidths) {
      shape = spread(shape, cell, half);
    }
    if (normal > 0.0) {
      NormalDistribution n = new NormalDistribution(null, 0.0, 1.0);
      double sigma = normal;
      shape = convolve(shape, cells(cell, x -> n.cumulativeProbability(x / sigma)));
    }
    if (observed > 0.0) {
      TDistribution t = new TDistribution(null, Math.max(1.0, degrees));
      shape = convolve(shape, cells(cell, x -> t.cumulativeProbability(x / observed)));
    }
    return shape;
  }

  private double tQuantile(double upTo) {
    return new TDistribution(null, Math.max(1.0, degrees)).inverseCumulativeProbability(upTo);
  }

  private interface Cumulative {
    double at(double x);
  }

  /** Adds a rectangular input: a moving sum over its width, with a part of a cell at each end. */
  private static double[] spread(double[] a, double cell, double half) {
    if (half <= cell / 2.0) {
      return a;
    }
    int whole = (int) Math.floor(half / cell - 0.5);
    double each = cell / (2.0 * half);
    double edge = (1.0 - each * (2 * whole + 1)) / 2.0;
    double[] upTo = new double[CELLS + 1];
    for (int i = 0; i < CELLS; i++) {
      upTo[i + 1] = upTo[i] + a[i];
    }
    double[] sum = new double[CELLS];
    for (int i = 0; i < CELLS; i++) {
      int from = Math.max(0, i - whole);
      int to = Math.min(CELLS, i + whole + 1);
      sum[i] = each * (upTo[to] - upTo[from]);
      sum[i] += from > 0 ? edge * a[from - 1] : 0.0;
      sum[i] += to < CELLS ? edge * a[to] : 0.0;
    }
    return sum;
  }

  /**
   * The probability of each cell of a distribution that is symmetric about zero; what lies beyond
   * the grid is put into its last cells.
   */
  private static double[] cells(double cell, Cumulative distribution) {
    double[] upTo = new double[CELLS];
    for (int i = 0; i < CELLS / 2; i++) {
      upTo[i] = distribution.at((i - CELLS / 2 + 0.5) * cell);
      upTo[CELLS - 2 - i] = 1.0 - upTo[i];
    }
    upTo[CELLS - 1] = 1.0;
    double[] cells = new double[CELLS];
    for (int i = 0; i < CELLS; i++) {
      cells[i] = upTo[i] - (i > 0 ? upTo[i - 1] : 0.0);
    }
    return cells;
  }

  /** What lies beyond the grid is put into its last cells. */
  private static double[] convolve(double[] a, double[] b) {
    double[] sum = new double[CELLS];
    for (int i = 0; i < CELLS; i++) {
      if (a[i] > 0.0) {
        add(a[i], b, i - CELLS / 2, sum);
      }
    }
    return sum;
  }

  /** In three loops, so that the one over the grid has no bounds to look at: it is a hot one. */
  private static void add(double share, double[] b, int shift, double[] sum) {
    int from = Math.max(0, -shift);
    int to = Math.min(CELLS, CELLS - shift);
    for (int j = 0; j < from; j++) {
      sum[0] += share * b[j];
    }
    for (int j = from; j < to; j++) {
      sum[j + shift] += share * b[j];
    }
    for (int j = to; j < CELLS; j++) {
      sum[CELLS - 1] += share * b[j];
    }
  }

  /** Out from the middle until the probability is held; straight within a cell. */
  private static double within(double[] sum, double cell, double coverage) {
    int middle = CELLS / 2;
    double held = sum[middle];
    if (held >= coverage) {
      return cell / 2.0 * coverage / held;
    }
    for (int i = 1; i <= middle; i++) {
      double more = sum[middle - i] + sum[middle + i];
      if (held + more >= coverage) {
        return cell * (i - 0.5 + (coverage - held) / more);
      }
      held += more;
    }
    return cell * (middle + 0.5);
  }
}
