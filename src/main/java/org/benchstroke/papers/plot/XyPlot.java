package org.benchstroke.papers.plot;

import java.util.List;
import java.util.Optional;

/**
 * A plot of branches over a setpoint, with limits where there are some. Immutable.
 *
 * @param id unique within the page, letters and dashes
 * @param title what it shows
 * @param description what it tells, in sentences, for those who can't see it
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param branches the series
 * @param ideal whether the line y = x is drawn
 * @param band the limits
 */
public record XyPlot(
    String id,
    String title,
    String description,
    Axis x,
    Axis y,
    List<Branch> branches,
    boolean ideal,
    Optional<Band> band) {
  private static final double AREA_HEIGHT = 215.0;
  // the line y = x tells less than errors do, and three plots shall fit on a page
  private static final double IDEAL_AREA_HEIGHT = 150.0;

  public XyPlot {
    branches = List.copyOf(branches);
  }

  /** The picture as an SVG element. */
  public String svg() {
    Legend legend = legend();
    double top = legend.height() + 10.0;
    double height = ideal ? IDEAL_AREA_HEIGHT : AREA_HEIGHT;
    Frame frame = new Frame(x, y, Picture.LEFT, top, Picture.RIGHT - Picture.LEFT, height);
    Svg svg = Picture.begin(id, title, description, frame.bottom() + 50.0);
    Picture.hatch(svg, id + "-guard", Stroke.SOFT);
    legend.draw(svg, 0.0);
    band.ifPresent(b -> guard(svg, frame, b));
    frame.grid(svg);
    if (ideal) {
      double from = Math.max(x.low(), y.low());
      double to = Math.min(x.high(), y.high());
      Stroke.IDEAL.line(svg, frame.px(from), frame.py(from), frame.px(to), frame.py(to));
    }
    zeroLine(svg, frame);
    band.ifPresent(b -> limits(svg, frame, b));
    for (int i = 0; i < branches.size(); i++) {
      draw(svg, frame.movedRight(aside(i)), branches.get(i));
    }
    frame.axes(svg);
    return Picture.finish(svg);
  }

  private Legend legend() {
    Legend legend = new Legend(Picture.LEFT, Picture.RIGHT);
    for (Branch branch : branches) {
      legend.add(
          branch.label(),
          (svg, px, py) -> {
            branch.stroke().line(svg, px, py, px + 28, py);
            branch.marker().draw(svg, px + 14, py, branch.stroke().colour());
          });
    }
    if (ideal) {
      legend.add(
          "position = setpoint", (svg, px, py) -> Stroke.IDEAL.line(svg, px, py, px + 28, py));
    }
    band.ifPresent(b -> bandLegend(legend, b));
    return legend;
  }

  private void bandLegend(Legend legend, Band b) {
    legend.add(b.label(), (svg, px, py) -> Stroke.LIMIT.line(svg, px, py, px + 28, py));
    if (b.guard() > 0.0) {
      legend.add(
          b.guardLabel(),
          (svg, px, py) ->
              svg.shape(
                  "rect", "x", px, "y", py - 6, "width", 28, "height", 12, "fill", guardFill()));
    }
  }

  private String guardFill() {
    return "url(#" + id + "-guard)";
  }

  private void guard(Svg svg, Frame frame, Band b) {
    if (b.guard() > 0.0) {
      b.high().ifPresent(high -> zone(svg, frame, high - b.guard(), high));
      b.low().ifPresent(low -> zone(svg, frame, low, low + b.guard()));
    }
  }

  private void zone(Svg svg, Frame frame, double from, double to) {
    double upper = Math.max(frame.py(to), frame.top());
    double lower = Math.min(frame.py(from), frame.bottom());
    svg.shape(
        "rect",
        "x",
        frame.left(),
        "y",
        upper,
        "width",
        frame.width(),
        "height",
        Math.max(0.0, lower - upper),
        "fill",
        guardFill());
  }

  private static void limits(Svg svg, Frame frame, Band b) {
    b.high().ifPresent(v -> limitLine(svg, frame, v));
    b.low().ifPresent(v -> limitLine(svg, frame, v));
  }

  private static void limitLine(Svg svg, Frame frame, double value) {
    Stroke.LIMIT.line(svg, frame.left(), frame.py(value), frame.right(), frame.py(value));
  }

  private void zeroLine(Svg svg, Frame frame) {
    if (!ideal && y.low() < 0.0 && y.high() > 0.0) {
      svg.shape(
          "line",
          "x1",
          frame.left(),
          "y1",
          frame.py(0.0),
          "x2",
          frame.right(),
          "y2",
          frame.py(0.0),
          "stroke",
          Stroke.SOFT);
    }
  }

  /** Branches with error bars stand side by side: bars at the same setpoint would cover another. */
  private double aside(int index) {
    return ideal ? 0.0 : (index - (branches.size() - 1) / 2.0) * 7.0;
  }

  private static void draw(Svg svg, Frame frame, Branch branch) {
    branch.runs().forEach(run -> line(svg, frame, branch.stroke(), run));
    branch.points().forEach(p -> point(svg, frame, branch, p));
  }

  private static void line(Svg svg, Frame frame, Stroke stroke, List<Branch.Point> run) {
    StringBuilder d = new StringBuilder();
    for (Branch.Point p : run) {
      d.append(d.length() == 0 ? 'M' : 'L');
      d.append(Svg.number(frame.px(p.x()))).append(' ').append(Svg.number(frame.py(p.y())));
    }
    if (run.size() > 1) {
      stroke.path(svg, d.toString());
    }
  }

  private static void point(Svg svg, Frame frame, Branch branch, Branch.Point p) {
    String colour = branch.stroke().colour();
    if (p.bar() > 0.0) {
      bar(svg, frame, p, colour);
    }
    branch.marker().draw(svg, frame.px(p.x()), frame.py(p.y()), colour);
  }

  private static void bar(Svg svg, Frame frame, Branch.Point p, String colour) {
    double px = frame.px(p.x());
    double upper = frame.py(p.y() + p.bar());
    double lower = frame.py(p.y() - p.bar());
    String d = "M" + Svg.number(px) + " " + Svg.number(upper) + "V" + Svg.number(lower);
    for (double end : new double[] {upper, lower}) {
      d += "M" + Svg.number(px - 4) + " " + Svg.number(end) + "h8";
    }
    svg.shape("path", "d", d, "fill", "none", "stroke", colour, "stroke-width", 1.2);
  }
}
