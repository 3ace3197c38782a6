package org.benchstroke.core.analysis;

import java.util.Arrays;

/**
 * The level in the middle of each way of a position that goes to and fro. Mostly it is one and the
 * same; where it creeps by more than its own scatter explains, it is that of a line through the
 * ways next to it. Immutable.
 */
final class MiddleLevels {
  /** A slope of more than this many standard uncertainties is no chance. Our own choice. */
  private static final double NO_CHANCE = 3.0;

  /** So many ways before and after one tell its level. */
  private static final int NEIGHBOURS = 3;

  /** Fewer tell no slope. */
  private static final int FEWEST = 5;

  /**
   * The standard uncertainty of a line at its end as a multiple of one point's: √((4k − 2)/(k² +
   * k)) for the four points that it has there.
   */
  private static final double AT_END = Math.sqrt(0.7);

  private final double[] levels;
  private final boolean creeps;
  private final double standard;

  /** Of the ways in their order, %. */
  MiddleLevels(double[] levels) {
    int n = levels.length;
    this.levels = levels;
    if (n < FEWEST) {
      this.creeps = false;
      this.standard = n < 2 ? 0.0 : Spread.of(levels).range() / 2.0;
      return;
    }
    Line all = Line.through(levels, 0, n);
    double changes = Math.abs(all.slope()) * (n - 1.0);
    double unsure = all.ofSlope() * (n - 1.0);
    this.creeps = changes > NO_CHANCE * unsure;
    // Of the first and of the last way, each: either what their lines leave open, or the creep.
    this.standard = creeps ? scatter() * AT_END : Math.max(changes, unsure) / 2.0;
  }

  /** The level of a way, %, where without a creep it is a common one. */
  double at(int way, double common) {
    return creeps ? local(way) : common;
  }

  /** The standard uncertainty of the level of the first way and of the last, each, %. */
  double standard() {
    return standard;
  }

  private double local(int way) {
    int from = Math.max(0, way - NEIGHBOURS);
    int to = Math.min(levels.length, way + NEIGHBOURS + 1);
    return Line.through(levels, from, to).at(way);
  }

  /** Of one way about its line, %. */
  private double scatter() {
    double squares = 0.0;
    for (int way = 0; way < levels.length; way++) {
      double off = levels[way] - local(way);
      squares += off * off;
    }
    // A line through half a dozen takes a third of the scatter with it.
    return Math.sqrt(1.5 * squares / levels.length);
  }

  /** The line of least squares through levels by their number. */
  private record Line(double mean, double middle, double slope, double ofSlope) {
    static Line through(double[] levels, int from, int to) {
      double n = to - from;
      double mean = Arrays.stream(levels, from, to).average().orElseThrow();
      double middle = (from + to - 1.0) / 2.0;
      double products = 0.0;
      double spread = 0.0;
      double around = 0.0;
      for (int i = from; i < to; i++) {
        products += (i - middle) * (levels[i] - mean);
        spread += (i - middle) * (i - middle);
        around += (levels[i] - mean) * (levels[i] - mean);
      }
      double slope = products / spread;
      double left = Math.max(0.0, around - slope * products) / Math.max(1.0, n - 2.0);
      return new Line(mean, middle, slope, Math.sqrt(left / spread));
    }

    double at(int way) {
      return mean + slope * (way - middle);
    }
  }
}
