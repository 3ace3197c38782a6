package org.benchstroke.papers.plot;

import java.util.List;
import java.util.stream.Stream;

/**
 * A series of points. Only points of one run are joined: what is missing between them stays open.
 * Immutable.
 *
 * @param label its name in the legend
 * @param marker the shape of its points
 * @param stroke its line
 * @param runs points in the order in which they are joined
 */
public record Branch(String label, Marker marker, Stroke stroke, List<List<Point>> runs) {
  public Branch {
    runs = runs.stream().map(List::copyOf).toList();
  }

  /** All points, run after run. */
  public Stream<Point> points() {
    return runs.stream().flatMap(List::stream);
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
