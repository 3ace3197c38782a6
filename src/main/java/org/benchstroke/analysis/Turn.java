package org.benchstroke.analysis;

import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.analysis.Estimate.Part;

/**
 * Where and when a position that goes to and fro turned. The highest of many noisy readings lies
 * too high, so all readings of a turn count that noise can't tell from the furthest one: the
 * instant is the middle of them, the level that of a parabola through their middle third.
 * Immutable.
 *
 * @param seconds the instant
 * @param percent the level
 * @param noisePercent the standard uncertainty of the level by noise, %
 */
record Turn(double seconds, double percent, double noisePercent) {
  /** Readings of one level differ by no more. */
  private static final double DEVIATIONS = 6.0;

  /** Fewer readings make no parabola: their mean is the level. */
  private static final int FEWEST = 5;

  /** The probability that noise alone has a wider range than is stated for it. */
  private static final double FALSE_RANGE = 0.05;

  /** Around the furthest reading of a turn. */
  static Turn around(Trace trace, int furthest, PositionNoise noise) {
    double reach = DEVIATIONS * noise.deviationPercent() + noise.resolutionPercent();
    double top = trace.percent(furthest);
    int from = furthest;
    int to = furthest;
    while (from > 0 && Math.abs(trace.percent(from - 1) - top) <= reach) {
      from--;
    }
    while (to < trace.size() - 1 && Math.abs(trace.percent(to + 1) - top) <= reach) {
      to++;
    }
    double middle = (trace.seconds(from) + trace.seconds(to)) / 2.0;
    int third = (to - from + 1) / 3;
    Trace inner = trace.slice(from + third, to + 1 - third);
    if (inner.size() < FEWEST) {
      Spread few = inner.spread();
      return new Turn(middle, few.mean(), noise.standard() / Math.sqrt(few.count()));
    }
    Parabola curve = Parabola.fit(inner, 0.0, 1.0, true);
    double variance = noise.varianceOnSlope(inner.size(), 0.0) * curve.leverage(0.0);
    return new Turn(middle, curve.at(0.0), Math.sqrt(variance));
  }

  /** The mean distance of neighbouring turns, at least two. */
  static Estimate distance(List<Turn> turns, PositionNoise noise) {
    double sum = 0.0;
    double squares = 0.0;
    for (int i = 0; i < turns.size(); i++) {
      // All but the first and the last are an end of two distances.
      double times = i == 0 || i == turns.size() - 1 ? 1.0 : 2.0;
      squares += times * times * turns.get(i).noisePercent() * turns.get(i).noisePercent();
      sum += i == 0 ? 0.0 : Math.abs(turns.get(i).percent() - turns.get(i - 1).percent());
    }
    double distances = turns.size() - 1.0;
    return new Estimate(
        sum / distances,
        List.of(
            Part.normal("noise of the position", Math.sqrt(squares) / distances),
            Part.within("resolution at the upper turns", noise.roundingOfMean()),
            Part.within("resolution at the lower turns", noise.roundingOfMean())),
        1.0);
  }

  /** The range of all readings, which noise alone has, too. */
  static Estimate range(Trace trace, PositionNoise noise) {
    double z =
        new NormalDistribution(null, 0.0, 1.0)
            .inverseCumulativeProbability(1.0 - FALSE_RANGE / (2.0 * trace.size()));
    double most = 2.0 * z * noise.deviationPercent() + noise.resolutionPercent();
    return new Estimate(
        trace.spread().range(), List.of(Part.within("range of the noise alone", most)), 1.0);
  }
}
