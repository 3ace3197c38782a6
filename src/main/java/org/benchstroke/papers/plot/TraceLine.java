package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * A trace over time: thinned, broken at gaps, with a grey strip in each gap and a square where a
 * reading stands at the end of its range.
 *
 * @param frame where
 * @param px from seconds to pixels
 * @param columnSeconds the width of a pixel, s
 */
record TraceLine(Frame frame, DoubleUnaryOperator px, double columnSeconds) {
  List<Shape> shapes(Stroke stroke, List<List<Sample>> runs) {
    List<Shape> shapes = new ArrayList<>();
    for (int i = 1; i < runs.size(); i++) {
      List<Sample> before = runs.get(i - 1);
      double from = px.applyAsDouble(before.get(before.size() - 1).seconds());
      // a gap may be narrower than the line is wide: a strip of at least three pixels shows it
      double width = Math.max(3.0, px.applyAsDouble(runs.get(i).get(0).seconds()) - from);
      shapes.add(
          new Shape.Area(
              new Box(from, frame.box().top(), width, frame.box().height()), Shape.Fill.GREY));
    }
    runs.forEach(run -> line(shapes, stroke, run));
    return shapes;
  }

  private void line(List<Shape> shapes, Stroke stroke, List<Sample> run) {
    List<Sample> thin = Decimation.thin(run, columnSeconds);
    shapes.add(new Shape.Curve(thin.stream().map(this::point).toList(), stroke));
    boolean before = false;
    for (Sample s : run) {
      if (s.saturated() && !before) {
        shapes.add(saturated(point(s).x(), point(s).y()));
      }
      before = s.saturated();
    }
  }

  private Point point(Sample s) {
    return new Point(px.applyAsDouble(s.seconds()), frame.py(s.value()));
  }

  static Shape saturated(double x, double y) {
    return new Shape.Mark(x, y, Marker.HOLLOW_SQUARE, Ink.BLACK);
  }
}
