package org.benchstroke.papers.plot;

/**
 * The drawing area of a plot with its two axes: turns values into pixels and draws grid, ticks and
 * labels.
 *
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param left first pixel of the area
 * @param top its upper edge
 * @param width its width
 * @param height its height
 */
record Frame(Axis x, Axis y, double left, double top, double width, double height) {
  double px(double value) {
    return left + x.share(value) * width;
  }

  double py(double value) {
    return top + (1.0 - y.share(value)) * height;
  }

  /** The same axes, all values drawn some pixels further right. */
  Frame movedRight(double pixels) {
    return new Frame(x, y, left + pixels, top, width, height);
  }

  double right() {
    return left + width;
  }

  double bottom() {
    return top + height;
  }

  void grid(Svg svg) {
    for (double tick : x.ticks()) {
      svg.shape(
          "line", "x1", px(tick), "y1", top, "x2", px(tick), "y2", bottom(), "stroke", Stroke.GRID);
    }
    for (double tick : y.ticks()) {
      svg.shape(
          "line", "x1", left, "y1", py(tick), "x2", right(), "y2", py(tick), "stroke", Stroke.GRID);
    }
  }

  /** The box, the numbers and the labels; drawn last, so that nothing covers them. */
  void axes(Svg svg) {
    svg.shape(
        "rect",
        "x",
        left,
        "y",
        top,
        "width",
        width,
        "height",
        height,
        "fill",
        "none",
        "stroke",
        Stroke.SOFT);
    for (double tick : x.ticks()) {
      svg.text(
          "text", x.tickText(tick), "x", px(tick), "y", bottom() + 18, "text-anchor", "middle");
    }
    for (double tick : y.ticks()) {
      svg.text("text", y.tickText(tick), "x", left - 8, "y", py(tick) + 4.5, "text-anchor", "end");
    }
    svg.text("text", x.label(), "x", left + width / 2, "y", bottom() + 40, "text-anchor", "middle");
    String turn = "rotate(-90 16 " + Svg.number(top + height / 2) + ")";
    svg.text(
        "text",
        y.label(),
        "x",
        16,
        "y",
        top + height / 2,
        "text-anchor",
        "middle",
        "transform",
        turn);
  }
}
