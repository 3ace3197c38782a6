package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.benchstroke.core.analysis.Estimate.Part;

/**
 * The turns of a position that goes to and fro: how far it went each time, and when it passed the
 * middle of the way between two of them. Immutable.
 */
final class Turns {
  /** Readings of one level differ by no more. */
  private static final double DEVIATIONS = 6.0;

  /** The probability that noise alone has a wider range than is stated for it. */
  private static final double FALSE_RANGE = 0.05;

  /** The part of the swing next to a turn that its shape is looked for in. */
  private static final double NEAR = 0.3;

  /** The part of it where the readings next to the turn are few. */
  private static final double HALF = 0.5;

  /** Fewer readings about a turn tell no shape. */
  private static final int FEWEST = 8;

  /** So many turns of a kind are fitted; the extreme readings of the others go with theirs. */
  private static final int MOST_FITTED = 6;

  /**
   * What the shapes leave of waves of other shapes, a half-width: a share of the swing and a share
   * of the noise. Found by made-up waves, see the coverage tests.
   */
  private static final double OTHER_SHAPES = 0.025;

  private static final double HIDDEN_BY_NOISE = 0.5;

  /**
   * A corner lies at one end of what is possible between two readings, a plateau at the other: 95 %
   * of these bounds shall hold them.
   */
  private static final double BOTH_ENDS = 1.15 / 0.95;

  private static final double WELL_WITHIN = 0.3;

  private final Trace trace;
  private final List<Integer> turning;
  private final PositionNoise noise;
  private final double speed;
  private final double swing;
  private final MiddleLevels middles;

  /**
   * Of a trace.
   *
   * @param turning the extremes, in their order, as indices
   * @param noise of the readings
   * @param speed the unit's, %/s: no way between two readings is steeper, unless they show it
   */
  Turns(Trace trace, List<Integer> turning, PositionNoise noise, double speed) {
    this.trace = trace;
    this.turning = List.copyOf(turning);
    this.noise = noise;
    this.speed = speed;
    double sum = 0.0;
    for (int j = 1; j < turning.size(); j++) {
      sum += Math.abs(trace.percent(turning.get(j)) - trace.percent(turning.get(j - 1)));
    }
    this.swing = sum / Math.max(1.0, turning.size() - 1.0);
    this.middles =
        new MiddleLevels(
            IntStream.range(1, turning.size())
                .mapToDouble(
                    j -> (trace.percent(turning.get(j - 1)) + trace.percent(turning.get(j))) / 2.0)
                .toArray());
  }

  /** When it turned, s: the middle of the readings that noise can't tell from the furthest one. */
  List<Double> instants() {
    return turning.stream().map(this::instant).toList();
  }

  private double instant(int furthest) {
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
    return (trace.seconds(from) + trace.seconds(to)) / 2.0;
  }

  /**
   * When it passed the middle of the way from a turn to the next.
   *
   * @param seconds the instant
   * @param standard its standard uncertainty by noise and by what is not seen between samples, s
   */
  record Crossing(double seconds, double standard) {}

  /** One for each way between two turns. */
  List<Crossing> crossings() {
    return IntStream.range(1, turning.size()).mapToObj(this::crossing).toList();
  }

  private Crossing crossing(int j) {
    int from = turning.get(j - 1);
    int to = turning.get(j);
    double middle = middle(j);
    double sign = trace.percent(to) > trace.percent(from) ? 1.0 : -1.0;
    int first = from + 1;
    while (first < to && sign * (trace.percent(first) - middle) < 0.0) {
      first++;
    }
    int last = to - 1;
    while (last >= first && sign * (trace.percent(last) - middle) >= 0.0) {
      last--;
    }
    // Noise may cross it more than once: the middle of the first time and the last.
    double seconds = (through(first - 1, middle) + through(last, middle)) / 2.0;
    double interval = trace.seconds(first) - trace.seconds(first - 1);
    double rise = Math.abs(trace.percent(first) - trace.percent(first - 1));
    double share = Math.min(1.0, rise / Math.abs(trace.percent(to) - trace.percent(from)));
    // At the middle a way is as steep as in the mean, or steeper.
    double slope = swing / (trace.seconds(to) - trace.seconds(from));
    // All of the way between two samples: anywhere between them. Of a longer way the chord shows
    // it.
    double unseen = share * share * interval / Math.sqrt(12.0);
    double level = Math.hypot(noise.standard(), middles.standard()) / slope;
    return new Crossing(seconds, Math.hypot(unseen, level));
  }

  /**
   * The same level for all ways that pass it well within: what one extreme reading misses of its
   * turn then shifts no single passage. Where the position creeps while it goes to and fro, the
   * level creeps with it.
   */
  private double middle(int j) {
    int from = turning.get(j - 1);
    int to = turning.get(j);
    double common = middles.at(j - 1, (extremes(kind(0)) - extremes(kind(1))) * sign(0) / 2.0);
    double own = (trace.percent(from) + trace.percent(to)) / 2.0;
    double way = Math.abs(trace.percent(to) - trace.percent(from));
    return Math.abs(common - own) < WELL_WITHIN * way ? common : own;
  }

  private double through(int i, double level) {
    double rise = trace.percent(i + 1) - trace.percent(i);
    double share = rise == 0.0 ? 0.5 : (level - trace.percent(i)) / rise;
    double interval = trace.seconds(i + 1) - trace.seconds(i);
    return trace.seconds(i) + Math.max(0.0, Math.min(1.0, share)) * interval;
  }

  int size() {
    return turning.size();
  }

  /** How far it went from one turn to the next, in the mean, %; 0 without two turns. */
  double swing() {
    return swing;
  }

  /**
   * The distance of the upper turns from the lower ones, each in the mean; without two turns the
   * range of all readings, which noise alone has, too.
   */
  Estimate distance() {
    if (turning.size() < 2) {
      return range();
    }
    TurnLevels one = levels(0);
    TurnLevels other = levels(1);
    double shapes = OTHER_SHAPES * swing + HIDDEN_BY_NOISE * noise.deviationPercent();
    double misfit = one.misfit() + other.misfit();
    double between = BOTH_ENDS * (one.halfBetween() + other.halfBetween());
    return new Estimate(
        one.mean() + other.mean(),
        List.of(
            Part.normal("noise of the position", Math.hypot(one.noise(), other.noise())),
            Part.normal("shape of the turns", Math.hypot(one.shapes(), other.shapes())),
            Part.within("turns of another shape", Math.max(shapes, misfit)),
            Part.within("between the samples at the turns", between),
            Part.within("resolution at the upper turns", noise.roundingOfMean()),
            Part.within("resolution at the lower turns", noise.roundingOfMean())),
        1.0);
  }

  /** The turns of one kind: every other one. */
  private TurnLevels levels(int kind) {
    List<Integer> all = kind(kind);
    int each = (all.size() + MOST_FITTED - 1) / MOST_FITTED;
    List<Integer> some =
        IntStream.range(0, all.size()).filter(i -> i % each == 0).mapToObj(all::get).toList();
    List<TurnFit> fits = new ArrayList<>();
    for (int j : some) {
      TurnReadings readings = about(j, NEAR);
      readings = readings.size() < FEWEST ? about(j, HALF) : readings;
      if (readings.size() >= FEWEST) {
        fits.add(readings.fit());
      }
    }
    if (fits.size() < some.size()) {
      return bounds(all);
    }
    TurnLevels fitted = TurnLevels.of(fits, noise.standard(), swing);
    double extremes = extremes(all) - extremes(some);
    return new TurnLevels(
        fitted.mean() + extremes,
        fitted.noise(),
        fitted.shapes(),
        fitted.misfit(),
        fitted.halfBetween());
  }

  private List<Integer> kind(int kind) {
    return IntStream.range(0, turning.size()).filter(j -> j % 2 == kind).boxed().toList();
  }

  private double extremes(List<Integer> turns) {
    return turns.stream()
        .mapToDouble(j -> sign(j) * trace.percent(turning.get(j)))
        .average()
        .orElseThrow();
  }

  /** Of turns with few readings: between the furthest of them and what lies between two. */
  private TurnLevels bounds(List<Integer> turns) {
    double sum = 0.0;
    double halves = 0.0;
    for (int j : turns) {
      double[] bounds = about(j, HALF).bounds(speed);
      sum += (bounds[0] + bounds[1]) / 2.0;
      halves += (bounds[1] - bounds[0]) / 2.0;
    }
    double n = turns.size();
    double one = noise.standard();
    return new TurnLevels(sum / n, one / Math.sqrt(n), 0.0, one, halves / n);
  }

  private TurnReadings about(int j, double share) {
    int from = j > 0 ? turning.get(j - 1) : -1;
    int to = j < turning.size() - 1 ? turning.get(j + 1) : trace.size();
    double sign = sign(j);
    double top = sign * trace.percent(turning.get(j));
    double foot = from >= 0 ? sign * trace.percent(from) : Double.NEGATIVE_INFINITY;
    foot = to < trace.size() ? Math.max(foot, sign * trace.percent(to)) : foot;
    double least = top - share * (top - foot);
    int first = turning.get(j);
    int last = first;
    while (first - 1 > from && sign * trace.percent(first - 1) > least) {
      first--;
    }
    while (last + 1 < to && sign * trace.percent(last + 1) > least) {
      last++;
    }
    return new TurnReadings(trace, sign, first, last);
  }

  private double sign(int j) {
    int other = j > 0 ? j - 1 : j + 1;
    return trace.percent(turning.get(j)) > trace.percent(turning.get(other)) ? 1.0 : -1.0;
  }

  private Estimate range() {
    double z =
        new NormalDistribution(null, 0.0, 1.0)
            .inverseCumulativeProbability(1.0 - FALSE_RANGE / (2.0 * trace.size()));
    double most = 2.0 * z * noise.deviationPercent() + noise.resolutionPercent();
    return new Estimate(
        trace.spread().range(), List.of(Part.within("range of the noise alone", most)), 1.0);
  }
}
