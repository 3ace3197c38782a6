package org.benchstroke.papers.plot;

import java.util.List;

/**
 * A part of a picture. All places are pixels of the picture from its upper left corner, x to the
 * right and y down. Immutable.
 */
public sealed interface Shape {
  /** Has itself drawn. */
  void on(Canvas canvas);

  /** A place. */
  record Point(double x, double y) {}

  /**
   * An upright rectangle.
   *
   * @param left its left edge
   * @param top its upper edge
   * @param width at least 0
   * @param height at least 0
   */
  record Box(double left, double top, double width, double height) {
    double right() {
      return left + width;
    }

    double bottom() {
      return top + height;
    }
  }

  /** A straight line whose ends are cut off square: an axis, a limit, a sample in a legend. */
  record Line(double x1, double y1, double x2, double y2, Stroke stroke) implements Shape {
    @Override
    public void on(Canvas canvas) {
      canvas.line(this);
    }
  }

  /**
   * What was read, joined in order. A solid one has round ends, so that a reading alone is seen.
   *
   * @param points at least one
   */
  record Curve(List<Point> points, Stroke stroke) implements Shape {
    public Curve {
      points = List.copyOf(points);
    }

    @Override
    public void on(Canvas canvas) {
      canvas.curve(this);
    }
  }

  /** How an area is filled. */
  enum Fill {
    /** Slanting lines: a hatching is seen where colours aren't. */
    HATCHED,
    /** Grey: something is missing here. */
    GREY,
    /** Nothing inside, a thin line around it. */
    NONE
  }

  /** An area. */
  record Area(Box box, Fill fill) implements Shape {
    @Override
    public void on(Canvas canvas) {
      canvas.area(this);
    }
  }

  /** A point of a series, its middle at (x, y). */
  record Mark(double x, double y, Marker marker, Ink ink) implements Shape {
    @Override
    public void on(Canvas canvas) {
      canvas.mark(this);
    }
  }

  /** Which part of a text stands at its place. */
  enum Anchor {
    START,
    MIDDLE,
    END
  }

  /** How a text is set. */
  enum Face {
    PLAIN,
    BOLD,
    ITALIC,
    /** Read from bottom to top. */
    UPWARD
  }

  /** One line of text, (x, y) on its base line. */
  record Text(String words, double x, double y, Anchor anchor, Face face) implements Shape {
    @Override
    public void on(Canvas canvas) {
      canvas.text(this);
    }
  }

  /** Shapes of which nothing is seen outside a box. */
  record Clipped(Box box, List<Shape> shapes) implements Shape {
    public Clipped {
      shapes = List.copyOf(shapes);
    }

    @Override
    public void on(Canvas canvas) {
      canvas.clipped(this);
    }
  }
}
