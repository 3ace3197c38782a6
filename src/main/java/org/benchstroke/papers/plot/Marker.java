package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Shape.Point;

/** The shape of a point: told apart by form and filling, so also in a grey print. */
public enum Marker {
  TRIANGLE_UP(true, 1.5, 0.0, -6.0, 5.5, 4.2, -5.5, 4.2),
  TRIANGLE_DOWN(true, 1.5, 0.0, 6.0, 5.5, -4.2, -5.5, -4.2),
  HOLLOW_TRIANGLE_UP(false, 1.5, 0.0, -6.0, 5.5, 4.2, -5.5, 4.2),
  HOLLOW_TRIANGLE_DOWN(false, 1.5, 0.0, 6.0, 5.5, -4.2, -5.5, -4.2),
  RING(false, 1.4),
  SQUARE(true, 0.0, -3.8, -3.8, 3.8, -3.8, 3.8, 3.8, -3.8, 3.8),
  HOLLOW_SQUARE(false, 1.5, -4.0, -4.0, 4.0, -4.0, 4.0, 4.0, -4.0, 4.0);

  /** Of a ring, px. */
  public static final double RADIUS = 3.6;

  private final boolean filled;
  private final double outline;
  private final double[] corners;

  Marker(boolean filled, double outline, double... corners) {
    this.filled = filled;
    this.outline = outline;
    this.corners = corners;
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
    List<Point> around = new ArrayList<>();
    for (int i = 0; i < corners.length; i += 2) {
      around.add(new Point(x + corners[i], y + corners[i + 1]));
    }
    return around;
  }
}
