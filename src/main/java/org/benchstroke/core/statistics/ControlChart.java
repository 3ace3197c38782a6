package org.benchstroke.core.statistics;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A control chart with its limits, in the unit of the values. Immutable.
 *
 * @param kind what its points are
 * @param centre the centre line
 * @param sigma the standard deviation of one of its points, above 0
 * @param points in the order of time
 * @param signals in the order of their points, then of the rules
 */
public record ControlChart(
    Kind kind, double centre, double sigma, List<Point> points, List<Signal> signals)
    implements ChartAnswer {

  /** What a point is. */
  public enum Kind {
    INDIVIDUALS,
    /** The distance of a value from the one before it. */
    MOVING_RANGE,
    /** The mean of a subgroup. */
    MEANS,
    /** The range of a subgroup. */
    RANGES,
    /** An exponentially weighted moving average. */
    EWMA
  }

  /**
   * One point.
   *
   * @param index of its value or subgroup in what was given, from 0
   * @param value what is drawn
   * @param low the lower limit here
   * @param high the upper one
   * @param baseline whether the limits were computed from it
   */
  public record Point(int index, double value, double low, double high, boolean baseline) {}

  /**
   * A rule that was met.
   *
   * @param rule which one
   * @param index of the point that completes it, as {@link Point#index}
   * @param way on which side or in which direction
   */
  public record Signal(ChartRule rule, int index, Way way) {}

  /** Where a signal points to. */
  public enum Way {
    UP,
    DOWN,
    /** To and fro. */
    BOTH
  }

  public ControlChart {
    points = List.copyOf(points);
    signals = List.copyOf(signals);
  }

  /** The signals outside the baseline. */
  public List<Signal> monitored() {
    Set<Integer> watched =
        points.stream().filter(p -> !p.baseline()).map(Point::index).collect(Collectors.toSet());
    return signals.stream().filter(s -> watched.contains(s.index())).toList();
  }
}
