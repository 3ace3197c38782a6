package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.exception.MathIllegalArgumentException;
import org.apache.commons.math3.stat.regression.OLSMultipleLinearRegression;
import org.benchstroke.core.quantity.Numbers;

/**
 * Where the unit comes to rest beside its setpoint after one clean motion: sp − y = d·p + o₀ + o₁·s
 * with d the direction, p = h_off − coast, s the travel. What source, meter and transmitter are off
 * by has the same sign from both sides and falls into o; p is what changes sign. The controller
 * looks once a period, so the stops lie evenly within the way of one period: with many of them
 * {@link EvenStops} finds the middle by the ends. With few it is their mean, by ordinary least
 * squares (Commons Math): a motion lasts a whole number of periods, and the rests at one setpoint
 * repeat one another, so that the uncertainty is that of their means, one for each setpoint and
 * side. A unit near to hunting comes back from its longest overruns, which then are no clean
 * motions: for stops that are spread evenly, a share f that is cut off moves their middle by
 * √3·s·f/(1 − f), which is taken back. Immutable.
 *
 * @param lead p = h_off − coast, % of travel
 * @param scatter standard deviation of one rest, %: the controller looks once a period
 * @param atMiddle o₀, the offset at mid travel, %
 * @param slope o₁, the change of the offset from mid travel to an end, %
 * @param rests how many rests it was taken from
 */
record Stops(FittedValue lead, double scatter, double atMiddle, double slope, int rests) {
  private static final double MIDDLE = 50.0;
  private static final double LEAST_SPAN = 20.0;
  private static final double MOST_CUT = 0.6;
  private static final int LEAST_RESTS = 6;

  /** Noise moves a stop by no more than this × its standard deviation, one way or the other. */
  private static final double MOST_EARLY = 0.4;

  /** The time constant of a motor's run-up, at most (common practice, no source), s. */
  private static final double RUN_UP_SECONDS = 0.14;

  /** Delays, lags and run-down of a controller, as seconds at speed (likewise), s. */
  private static final double COAST_SECONDS = 0.17;

  /**
   * 1.96, and a quarter more because stops repeat one another: our own choice, by counting how
   * often it covers.
   */
  private static final double EVEN_FACTOR = 2.45;

  /**
   * Empty with too few clean motions from either side.
   *
   * @param corrected how many motions as long as these overran so far that the unit came back
   * @param noise standard deviation of the feedback at rest, %
   * @param percentPerSecond the speed of its type
   */
  static Optional<Stops> of(
      List<Move> clean, int corrected, double noise, double percentPerSecond) {
    long up = clean.stream().filter(m -> m.sign() > 0).count();
    if (clean.size() < LEAST_RESTS || up < 2 || clean.size() - up < 2) {
      return Optional.empty();
    }
    List<Rest> cells = cells(clean);
    double low = cells.stream().mapToDouble(Rest::to).min().orElseThrow();
    double high = cells.stream().mapToDouble(Rest::to).max().orElseThrow();
    boolean sloped = high - low >= LEAST_SPAN;
    int degrees = cells.size() - (sloped ? 3 : 2);
    if (degrees < 1) {
      return Optional.empty();
    }
    try {
      List<Rest> rests = clean.stream().map(Rest::of).toList();
      double[] mean = fit(rests, sloped).estimateRegressionParameters();
      double scatter = scatter(rests, mean);
      // A maximum that is as flat as that shows no ends.
      Optional<EvenStops> even =
          EvenStops.of(rests, mean, scatter, noise).filter(e -> e.standard() < scatter);
      FittedValue middle =
          even.map(e -> new FittedValue(e.lead(), EVEN_FACTOR * e.standard()))
              .orElseGet(() -> new FittedValue(mean[1], ofMeans(cells, sloped, degrees)));
      double cut = middle.value() < 0.0 ? corrected / (double) (corrected + clean.size()) : 0.0;
      if (cut > MOST_CUT) {
        return Optional.empty();
      }
      return Optional.of(
          new Stops(
              whole(
                  middle,
                  Math.sqrt(3.0) * scatter * cut / (1.0 - cut),
                  StrictMath.hypot(early(noise), coastsLess(clean, percentPerSecond))),
              scatter / (1.0 - cut),
              even.map(EvenStops::atMiddle).orElse(mean[0]),
              even.map(EvenStops::slope).orElse(sloped ? mean[2] : 0.0),
              clean.size()));
    } catch (MathIllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** With what the longest overruns would have moved it by, and what else may. */
  private static FittedValue whole(FittedValue middle, double unseen, double more) {
    double half = StrictMath.hypot(StrictMath.hypot(middle.half(), more), 0.5 * unseen);
    return new FittedValue(middle.value() - unseen, half);
  }

  private static double early(double noise) {
    return 1.96 * MOST_EARLY * noise / Math.sqrt(3.0);
  }

  /** A motor that is stopped before it has come to its speed coasts less than from a long move. */
  private static double coastsLess(List<Move> clean, double percentPerSecond) {
    double share =
        clean.stream()
            .mapToDouble(m -> Math.abs(m.way()) / percentPerSecond)
            .map(seconds -> StrictMath.exp(-seconds / RUN_UP_SECONDS))
            .average()
            .orElseThrow();
    return COAST_SECONDS * percentPerSecond * share;
  }

  private static double ofMeans(List<Rest> cells, boolean sloped, int degrees) {
    double k = new TDistribution(degrees).inverseCumulativeProbability(0.975);
    return k * fit(cells, sloped).estimateRegressionParametersStandardErrors()[1];
  }

  /** A rest, or the mean of all at one setpoint, from one side. */
  record Rest(double to, int sign, double error) {
    static Rest of(Move m) {
      return new Rest(m.to(), m.sign(), m.to() - m.after().mean());
    }

    double share() {
      return Stops.share(to);
    }
  }

  private static OLSMultipleLinearRegression fit(List<Rest> rests, boolean sloped) {
    double[] error = rests.stream().mapToDouble(Rest::error).toArray();
    double[][] by =
        rests.stream()
            .map(c -> sloped ? new double[] {c.sign(), c.share()} : new double[] {c.sign()})
            .toArray(double[][]::new);
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    fit.newSampleData(error, by);
    return fit;
  }

  private static List<Rest> cells(List<Move> clean) {
    Map<String, List<Rest>> sorted = new TreeMap<>();
    for (Move m : clean) {
      sorted
          .computeIfAbsent(Numbers.fixed(m.to(), 2) + ' ' + m.sign(), k -> new ArrayList<>())
          .add(Rest.of(m));
    }
    return sorted.values().stream()
        .map(
            in ->
                new Rest(
                    in.get(0).to(),
                    in.get(0).sign(),
                    in.stream().mapToDouble(Rest::error).average().orElseThrow()))
        .toList();
  }

  private static double scatter(List<Rest> rests, double[] found) {
    double squares = 0.0;
    for (Rest r : rests) {
      double slope = found.length > 2 ? found[2] * r.share() : 0.0;
      double left = r.error() - found[0] - r.sign() * found[1] - slope;
      squares += left * left;
    }
    return Math.sqrt(squares / rests.size());
  }

  private static double share(double percent) {
    return (percent - MIDDLE) / MIDDLE;
  }

  /** Where it is when it reads so, %: what {@link #offset} takes away, solved for the position. */
  double position(double reading) {
    return (reading + atMiddle - slope) / (1.0 - slope / MIDDLE);
  }

  /** By how much a position reads too little there, against the setpoint, %. */
  double offset(double percent) {
    return atMiddle + slope * share(percent);
  }
}
