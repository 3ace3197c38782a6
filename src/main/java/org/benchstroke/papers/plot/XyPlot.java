package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * A plot of branches over a setpoint, with limits where there are some. Immutable.
 *
 * @param caption its words
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param branches the series
 * @param ideal whether the line y = x is drawn
 * @param band the limits
 */
public record XyPlot(
    Caption caption, Axis x, Axis y, List<Branch> branches, boolean ideal, Optional<Band> band) {
  private static final double AREA_HEIGHT = 215.0;
  // the line y = x tells less than errors do, and three plots shall fit on a page
  private static final double IDEAL_AREA_HEIGHT = 150.0;

  public XyPlot {
    branches = List.copyOf(branches);
  }

  /** The picture. */
  public Drawing drawing() {
    Legend legend = legend();
    double height = ideal ? IDEAL_AREA_HEIGHT : AREA_HEIGHT;
    Frame frame = Frame.wide(x, y, legend.height() + 10.0, height);
    List<Shape> shapes = new ArrayList<>(legend.shapes());
    band.ifPresent(b -> shapes.addAll(guard(frame, b)));
    shapes.addAll(frame.grid());
    if (ideal) {
      double from = Math.max(x.low(), y.low());
      double to = Math.min(x.high(), y.high());
      shapes.add(
          new Shape.Line(frame.px(from), frame.py(from), frame.px(to), frame.py(to), Stroke.IDEAL));
    } else if (y.low() < 0.0 && y.high() > 0.0) {
      shapes.add(frame.level(0.0, Stroke.ZERO));
    }
    band.ifPresent(
        b -> {
          b.high().ifPresent(v -> shapes.add(frame.level(v, Stroke.LIMIT)));
          b.low().ifPresent(v -> shapes.add(frame.level(v, Stroke.LIMIT)));
        });
    for (int i = 0; i < branches.size(); i++) {
      shapes.addAll(branch(frame.movedRight(aside(i)), branches.get(i)));
    }
    shapes.addAll(frame.axes());
    return new Drawing(caption, Frame.WIDTH, frame.box().bottom() + 50.0, shapes);
  }

  private Legend legend() {
    Legend legend = new Legend();
    for (Branch branch : branches) {
      legend.add(
          branch.label(),
          (left, middle) ->
              List.of(
                  new Shape.Line(left, middle, left + 28.0, middle, branch.stroke()),
                  new Shape.Mark(left + 14.0, middle, branch.marker(), branch.stroke().ink())));
    }
    if (ideal) {
      legend.add("position = setpoint", Legend.line(Stroke.IDEAL));
    }
    band.ifPresent(b -> legend.add(b.label(), Legend.line(Stroke.LIMIT)));
    band.filter(b -> b.guard() > 0.0)
        .ifPresent(b -> legend.add(b.guardLabel(), Legend.area(Shape.Fill.HATCHED)));
    return legend;
  }

  private static List<Shape> guard(Frame frame, Band b) {
    List<Shape> zones = new ArrayList<>();
    if (b.guard() > 0.0) {
      b.high().ifPresent(high -> zones.add(zone(frame, high - b.guard(), high)));
      b.low().ifPresent(low -> zones.add(zone(frame, low, low + b.guard())));
    }
    return zones;
  }

  private static Shape zone(Frame frame, double from, double to) {
    Box area = frame.box();
    double upper = Math.max(frame.py(to), area.top());
    double height = Math.max(0.0, Math.min(frame.py(from), area.bottom()) - upper);
    return new Shape.Area(new Box(area.left(), upper, area.width(), height), Shape.Fill.HATCHED);
  }

  /** Branches with error bars stand side by side: bars at the same setpoint would cover another. */
  private double aside(int index) {
    return ideal ? 0.0 : (index - (branches.size() - 1) / 2.0) * 7.0;
  }

  private static List<Shape> branch(Frame frame, Branch branch) {
    List<Shape> shapes = new ArrayList<>();
    for (List<Branch.Point> run : branch.runs()) {
      if (run.size() > 1) {
        shapes.add(
            new Shape.Curve(
                run.stream().map(p -> new Point(frame.px(p.x()), frame.py(p.y()))).toList(),
                branch.stroke()));
      }
    }
    branch.points().forEach(p -> shapes.addAll(point(frame, branch, p)));
    return shapes;
  }

  private static List<Shape> point(Frame frame, Branch branch, Branch.Point p) {
    double x = frame.px(p.x());
    List<Shape> shapes = new ArrayList<>();
    if (p.bar() > 0.0) {
      double upper = frame.py(p.y() + p.bar());
      double lower = frame.py(p.y() - p.bar());
      Stroke bar = branch.stroke().bar();
      shapes.add(new Shape.Line(x, upper, x, lower, bar));
      shapes.add(new Shape.Line(x - 4.0, upper, x + 4.0, upper, bar));
      shapes.add(new Shape.Line(x - 4.0, lower, x + 4.0, lower, bar));
    }
    shapes.add(new Shape.Mark(x, frame.py(p.y()), branch.marker(), branch.stroke().ink()));
    return shapes;
  }
}
