package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;

/**
 * How far points depart from a straight line: independent, terminal-based or zero-based
 * (ANSI/ISA-51.1-1979 (R1993), definitions from memory). Pure functions.
 */
public final class Linearity {
  private Linearity() {}

  /**
   * A point of the curve.
   *
   * @param x where
   * @param y its value there, or its error: a line more or less changes nothing
   */
  public record Point(double x, double y) {}

  /**
   * How much the deviation changes with the value of one point: what an uncertainty budget needs.
   *
   * @param x which point
   * @param weight the deviation's change per unit of its y
   */
  public record Weight(double x, double weight) {}

  /**
   * A line and the largest deviation from it.
   *
   * @param intercept of the line
   * @param slope of the line
   * @param deviation the largest deviation with its sign; positive for the independent line, which
   *     has it on both sides
   * @param at where it is
   * @param weights its dependence on the points' values; one point may have several
   */
  public record Deviation(
      double intercept, double slope, double deviation, double at, List<Weight> weights) {
    public Deviation {
      weights = List.copyOf(weights);
    }
  }

  /**
   * From the line that makes the largest deviation smallest (minimax). Exact: the strip of least
   * height that holds all points has two of them on one side and one on the other, so that it is
   * parallel to the join of some two points.
   *
   * @param points at two or more different x, rising
   */
  public static Deviation independent(List<Point> points) {
    require(points);
    Point from = points.get(0);
    Point to = points.get(1);
    double lowest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < points.size(); i++) {
      for (int j = i + 1; j < points.size(); j++) {
        double height = height(points, slope(points.get(i), points.get(j)));
        if (height < lowest) {
          lowest = height;
          from = points.get(i);
          to = points.get(j);
        }
      }
    }
    return strip(points, from, to);
  }

  private static double slope(Point a, Point b) {
    return (b.y() - a.y()) / (b.x() - a.x());
  }

  private static double height(List<Point> points, double slope) {
    double top = Double.NEGATIVE_INFINITY;
    double bottom = Double.POSITIVE_INFINITY;
    for (Point p : points) {
      double above = p.y() - slope * p.x();
      top = Math.max(top, above);
      bottom = Math.min(bottom, above);
    }
    return top - bottom;
  }

  private static Deviation strip(List<Point> points, Point a, Point b) {
    double slope = slope(a, b);
    Point highest = points.get(0);
    Point lowest = points.get(0);
    for (Point p : points) {
      highest = p.y() - slope * p.x() > highest.y() - slope * highest.x() ? p : highest;
      lowest = p.y() - slope * p.x() < lowest.y() - slope * lowest.x() ? p : lowest;
    }
    double top = highest.y() - slope * highest.x();
    double bottom = lowest.y() - slope * lowest.x();
    double join = a.y() - slope * a.x();
    boolean joinIsLow = join - bottom <= top - join;
    Point across = joinIsLow ? highest : lowest;
    double sign = joinIsLow ? 1.0 : -1.0;
    List<Weight> weights = new ArrayList<>();
    weights.add(new Weight(across.x(), sign / 2.0));
    double share = (across.x() - a.x()) / (b.x() - a.x());
    weights.add(new Weight(a.x(), -sign / 2.0 * (1.0 - share)));
    weights.add(new Weight(b.x(), -sign / 2.0 * share));
    return new Deviation((top + bottom) / 2.0, slope, (top - bottom) / 2.0, across.x(), weights);
  }

  /** From the line through the first and the last point. */
  public static Deviation terminal(List<Point> points) {
    require(points);
    Point first = points.get(0);
    Point last = points.get(points.size() - 1);
    double slope = (last.y() - first.y()) / (last.x() - first.x());
    double intercept = first.y() - slope * first.x();
    Point worst = worst(points, intercept, slope);
    double share = (worst.x() - first.x()) / (last.x() - first.x());
    return new Deviation(
        intercept,
        slope,
        worst.y() - intercept - slope * worst.x(),
        worst.x(),
        List.of(
            new Weight(worst.x(), 1.0),
            new Weight(first.x(), share - 1.0),
            new Weight(last.x(), -share)));
  }

  /** From the line through the first point whose slope makes the largest deviation smallest. */
  public static Deviation zeroBased(List<Point> points) {
    require(points);
    Point zero = points.get(0);
    Fan bestFan = null;
    double best = Double.POSITIVE_INFINITY;
    for (Fan fan : fans(zero, points)) {
      double slope = fan.slope();
      double intercept = zero.y() - slope * zero.x();
      Point worst = worst(points, intercept, slope);
      double deviation = Math.abs(worst.y() - intercept - slope * worst.x());
      if (deviation < best) {
        best = deviation;
        bestFan = fan;
      }
    }
    double bestSlope = bestFan.slope();
    double intercept = zero.y() - bestSlope * zero.x();
    Point worst = worst(points, intercept, bestSlope);
    return new Deviation(
        intercept,
        bestSlope,
        worst.y() - intercept - bestSlope * worst.x(),
        worst.x(),
        bestFan.weights(zero, worst));
  }

  /** A line through zero from which two points deviate alike, on opposite sides. */
  private record Fan(double slope, Point a, Point b, double run) {
    List<Weight> weights(Point zero, Point worst) {
      double share = (worst.x() - zero.x()) / run;
      return List.of(
          new Weight(worst.x(), 1.0),
          new Weight(zero.x(), 2.0 * share - 1.0),
          new Weight(a.x(), -share),
          new Weight(b.x(), -share));
    }
  }

  /** The lines at which two points deviate alike, one above and one below: the best is one. */
  private static List<Fan> fans(Point zero, List<Point> points) {
    List<Fan> slopes = new ArrayList<>();
    for (int i = 1; i < points.size(); i++) {
      for (int j = i; j < points.size(); j++) {
        double rise = points.get(i).y() + points.get(j).y() - 2.0 * zero.y();
        double run = points.get(i).x() + points.get(j).x() - 2.0 * zero.x();
        slopes.add(new Fan(rise / run, points.get(i), points.get(j), run));
      }
    }
    return slopes;
  }

  private static Point worst(List<Point> points, double intercept, double slope) {
    Point worst = points.get(0);
    double largest = -1.0;
    for (Point point : points) {
      double deviation = Math.abs(point.y() - intercept - slope * point.x());
      if (deviation > largest) {
        largest = deviation;
        worst = point;
      }
    }
    return worst;
  }

  private static void require(List<Point> points) {
    if (points.size() < 2) {
      throw new IllegalArgumentException("linearity needs two points or more");
    }
    for (int i = 1; i < points.size(); i++) {
      if (!(points.get(i).x() > points.get(i - 1).x())) {
        throw new IllegalArgumentException("linearity needs points at rising places");
      }
    }
  }
}
