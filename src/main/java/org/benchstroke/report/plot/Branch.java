package org.benchstroke.report.plot;

import java.util.List;

/**
 * A series of points, joined by a line where they follow each other in {@code x}. Immutable.
 *
 * @param label its name in the legend
 * @param marker the shape of its points
 * @param stroke its line
 * @param points in the order in which they are joined
 */
public record Branch(String label, Marker marker, Stroke stroke, List<Point> points) {
  public Branch {
    points = List.copyOf(points);
  }

  /**
   * One point.
   *
   * @param x where
   * @param y its value
   * @param bar half the length of its error bar, in the unit of y; 0 for none
   */
  public record Point(double x, double y, double bar) {}
}
