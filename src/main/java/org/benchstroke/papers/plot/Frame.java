package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;

/**
 * The drawing area of a plot with its two axes: turns values into pixels and draws grid, ticks and
 * labels.
 *
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param box the area
 */
record Frame(Axis x, Axis y, Box box) {
  /** Of a picture as wide as a page, px. */
  static final double WIDTH = 760.0;

  static final double LEFT = 64.0;
  static final double RIGHT = WIDTH - 18.0;

  /** The left edge that leaves room for the numbers of an axis, however long they are. */
  static double left(Axis y) {
    int longest = y.ticks().stream().mapToInt(t -> y.tickText(t).length()).max().orElse(0);
    return Math.max(LEFT, 34.0 + 7.5 * longest);
  }

  /** In a picture as wide as a page. */
  static Frame wide(Axis x, Axis y, double top, double height) {
    return new Frame(x, y, new Box(LEFT, top, RIGHT - LEFT, height));
  }

  double px(double value) {
    return box.left() + x.share(value) * box.width();
  }

  double py(double value) {
    return box.top() + (1.0 - y.share(value)) * box.height();
  }

  /** The same axes, all values drawn some pixels further right. */
  Frame movedRight(double pixels) {
    return new Frame(x, y, new Box(box.left() + pixels, box.top(), box.width(), box.height()));
  }

  /** A line across the area. */
  Shape level(double value, Stroke stroke) {
    return new Shape.Line(box.left(), py(value), box.right(), py(value), stroke);
  }

  List<Shape> grid() {
    List<Shape> grid = new ArrayList<>();
    for (double tick : x.ticks()) {
      grid.add(new Shape.Line(px(tick), box.top(), px(tick), box.bottom(), Stroke.GRID));
    }
    y.ticks().forEach(tick -> grid.add(level(tick, Stroke.GRID)));
    return grid;
  }

  /** The box, the numbers and the labels; drawn last, so that nothing covers them. */
  List<Shape> axes() {
    List<Shape> axes = new ArrayList<>();
    axes.add(new Shape.Area(box, Shape.Fill.NONE));
    double below = box.bottom() + 18.0;
    for (double tick : x.ticks()) {
      axes.add(new Shape.Text(x.tickText(tick), px(tick), below, Anchor.MIDDLE, Face.PLAIN));
    }
    double beside = box.left() - 8.0;
    for (double tick : y.ticks()) {
      axes.add(new Shape.Text(y.tickText(tick), beside, py(tick) + 4.5, Anchor.END, Face.PLAIN));
    }
    double middle = box.left() + box.width() / 2;
    axes.add(new Shape.Text(x.label(), middle, box.bottom() + 40.0, Anchor.MIDDLE, Face.PLAIN));
    double height = box.top() + box.height() / 2;
    axes.add(new Shape.Text(y.label(), 16.0, height, Anchor.MIDDLE, Face.UPWARD));
    return axes;
  }
}
