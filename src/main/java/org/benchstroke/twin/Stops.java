package org.benchstroke.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.exception.MathIllegalArgumentException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;
import org.benchstroke.quantity.Numbers;

/**
 * Where the unit comes to rest beside its setpoint after one clean motion: sp − y = d·p + o₀ + o₁·s
 * with d the direction, p = h_off − coast, s the travel. What source, meter and transmitter are off
 * by has the same sign from both sides and falls into o; p is what changes sign. The controller
 * looks once a period, so a motion lasts a whole number of periods, and the rests at one setpoint
 * repeat one another: p is fitted to all rests, its uncertainty to their means, one for each
 * setpoint and side. Noise makes the motor stop early, by up to its standard deviation: half of it
 * is taken back, ± half. A unit near to hunting comes back from its longest overruns, which then
 * are no clean motions: for stops that are spread evenly, a share f that is cut off moves their
 * mean by √3·s·f/(1 − f), which is taken back. Ordinary least squares (Commons Math). Immutable.
 *
 * @param lead p = h_off − coast, % of travel
 * @param scatter standard deviation of one rest, %: the controller looks once a period
 * @param atMiddle o₀, the offset at mid travel, %
 * @param slope o₁, the change of the offset from mid travel to an end, %
 * @param rests how many rests it was taken from
 */
record Stops(Found lead, double scatter, double atMiddle, double slope, int rests) {
  private static final double MIDDLE = 50.0;
  private static final double LEAST_SPAN = 20.0;
  private static final double MOST_CUT = 0.6;
  private static final int LEAST_RESTS = 6;

  /**
   * Empty with too few clean motions from either side.
   *
   * @param corrected how many motions as long as these overran so far that the unit came back
   * @param noise standard deviation of the feedback at rest, %
   */
  static Optional<Stops> of(List<Move> clean, int corrected, double noise) {
    long up = clean.stream().filter(m -> m.sign() > 0).count();
    if (clean.size() < LEAST_RESTS || up < 2 || clean.size() - up < 2) {
      return Optional.empty();
    }
    List<Cell> cells = cells(clean);
    double low = cells.stream().mapToDouble(Cell::to).min().orElseThrow();
    double high = cells.stream().mapToDouble(Cell::to).max().orElseThrow();
    boolean sloped = high - low >= LEAST_SPAN;
    int degrees = cells.size() - (sloped ? 3 : 2);
    if (degrees < 1) {
      return Optional.empty();
    }
    try {
      List<Cell> rests = clean.stream().map(Cell::of).toList();
      double[] found = fit(rests, sloped).estimateRegressionParameters();
      double[] errors = fit(cells, sloped).estimateRegressionParametersStandardErrors();
      double k = new TDistribution(degrees).inverseCumulativeProbability(0.975);
      double early = 0.5 * noise;
      double half = StrictMath.hypot(k * errors[1], 1.96 * early / Math.sqrt(3.0));
      double slope = sloped ? found[2] : 0.0;
      double cut = found[1] < 0.0 ? corrected / (double) (corrected + clean.size()) : 0.0;
      if (cut > MOST_CUT) {
        return Optional.empty();
      }
      double scatter = scatter(clean, found);
      double unseen = Math.sqrt(3.0) * scatter * cut / (1.0 - cut);
      return Optional.of(
          new Stops(
              new Found(found[1] - early - unseen, StrictMath.hypot(half, 0.5 * unseen)),
              scatter / (1.0 - cut),
              found[0],
              slope,
              clean.size()));
    } catch (MathIllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** A rest, or the mean of all at one setpoint, from one side. */
  private record Cell(double to, int sign, double error) {
    static Cell of(Move m) {
      return new Cell(m.to(), m.sign(), m.to() - m.after().mean());
    }
  }

  private static OLSMultipleLinearRegression fit(List<Cell> rests, boolean sloped) {
    double[] error = rests.stream().mapToDouble(Cell::error).toArray();
    double[][] by =
        rests.stream()
            .map(c -> sloped ? new double[] {c.sign(), share(c.to())} : new double[] {c.sign()})
            .toArray(double[][]::new);
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    fit.newSampleData(error, by);
    return fit;
  }

  private static List<Cell> cells(List<Move> clean) {
    Map<String, List<Move>> sorted = new TreeMap<>();
    for (Move m : clean) {
      sorted
          .computeIfAbsent(Numbers.fixed(m.to(), 2) + ' ' + m.sign(), k -> new ArrayList<>())
          .add(m);
    }
    return sorted.values().stream()
        .map(
            in ->
                new Cell(
                    in.get(0).to(),
                    in.get(0).sign(),
                    in.stream()
                        .mapToDouble(m -> m.to() - m.after().mean())
                        .average()
                        .orElseThrow()))
        .toList();
  }

  private static double scatter(List<Move> clean, double[] found) {
    double squares = 0.0;
    for (Move m : clean) {
      double slope = found.length > 2 ? found[2] * share(m.to()) : 0.0;
      double left = m.to() - m.after().mean() - found[0] - m.sign() * found[1] - slope;
      squares += left * left;
    }
    return Math.sqrt(squares / clean.size());
  }

  private static double share(double percent) {
    return (percent - MIDDLE) / MIDDLE;
  }

  /** By how much a position reads too little there, against the setpoint, %. */
  double offset(double percent) {
    return atMiddle + slope * share(percent);
  }
}
