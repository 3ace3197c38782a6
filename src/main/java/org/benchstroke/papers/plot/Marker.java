package org.benchstroke.papers.plot;

import java.util.List;
import org.benchstroke.papers.plot.Shape.Point;

/** The shape of a point: told apart by form and filling, so also in a grey print. */
public enum Marker {
  TRIANGLE_UP(true, 1.5),
  TRIANGLE_DOWN(true, 1.5),
  HOLLOW_TRIANGLE_UP(false, 1.5),
  HOLLOW_TRIANGLE_DOWN(false, 1.5),
  RING(false, 1.4),
  SQUARE(true, 0.0),
  HOLLOW_SQUARE(false, 1.5);

  /** Of a ring, px. */
  public static final double RADIUS = 3.6;

  private final boolean filled;
  private final double outline;

  Marker(boolean filled, double outline) {
    this.filled = filled;
    this.outline = outline;
  }

  /** Whether it is full of its ink; else it is empty, and hides what is below it. */
  public boolean filled() {
    return filled;
  }

  /** The width of the line around it, px; 0 for none. */
  public double outline() {
    return outline;
  }

  /** Its corners around a point, in turn; none of a ring. */
  public List<Point> corners(double x, double y) {
    return switch (this) {
      case TRIANGLE_UP, HOLLOW_TRIANGLE_UP -> triangle(x, y, -6.0);
      case TRIANGLE_DOWN, HOLLOW_TRIANGLE_DOWN -> triangle(x, y, 6.0);
      case RING -> List.of();
      case SQUARE -> square(x, y, 3.8);
      case HOLLOW_SQUARE -> square(x, y, 4.0);
    };
  }

  private static List<Point> triangle(double x, double y, double tip) {
    double base = y - tip * 0.7;
    return List.of(new Point(x, y + tip), new Point(x + 5.5, base), new Point(x - 5.5, base));
  }

  private static List<Point> square(double x, double y, double half) {
    return List.of(
        new Point(x - half, y - half),
        new Point(x + half, y - half),
        new Point(x + half, y + half),
        new Point(x - half, y + half));
  }
}
