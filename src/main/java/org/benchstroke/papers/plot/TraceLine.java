package org.benchstroke.papers.plot;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.benchstroke.papers.plot.Decimation.Sample;

/**
 * Draws a trace over time: thinned, broken at gaps, with a grey strip in each gap and a square
 * where a reading stands at the end of its range.
 *
 * @param frame where
 * @param px from seconds to pixels
 * @param columnSeconds the width of a pixel, s
 */
record TraceLine(Frame frame, DoubleUnaryOperator px, double columnSeconds) {
  void draw(Svg svg, Stroke stroke, List<List<Sample>> runs) {
    gaps(svg, runs);
    runs.forEach(run -> line(svg, stroke, run));
  }

  /** A gap may be narrower than the line is wide: a strip of at least three pixels shows it. */
  private void gaps(Svg svg, List<List<Sample>> runs) {
    for (int i = 1; i < runs.size(); i++) {
      List<Sample> before = runs.get(i - 1);
      double from = px.applyAsDouble(before.get(before.size() - 1).seconds());
      double width = Math.max(3.0, px.applyAsDouble(runs.get(i).get(0).seconds()) - from);
      gap(svg, from, frame.top(), width, frame.height());
    }
  }

  static void gap(Svg svg, double x, double y, double width, double height) {
    svg.shape(
        "rect",
        "x",
        x,
        "y",
        y,
        "width",
        width,
        "height",
        height,
        "fill",
        Stroke.INK,
        "fill-opacity",
        "0.28");
  }

  private void line(Svg svg, Stroke stroke, List<Sample> run) {
    StringBuilder d = new StringBuilder();
    for (Sample s : Decimation.thin(run, columnSeconds)) {
      d.append(d.length() == 0 ? 'M' : 'L').append(Svg.number(px.applyAsDouble(s.seconds())));
      d.append(' ').append(Svg.number(frame.py(s.value())));
    }
    // a line of no length with round ends: a sample that stands alone is still seen
    stroke.path(svg, run.size() == 1 ? d + "h0" : d.toString());
    boolean before = false;
    for (Sample s : run) {
      if (s.saturated() && !before) {
        saturated(svg, px.applyAsDouble(s.seconds()), frame.py(s.value()));
      }
      before = s.saturated();
    }
  }

  static void saturated(Svg svg, double x, double y) {
    svg.shape(
        "rect",
        "x",
        x - 4,
        "y",
        y - 4,
        "width",
        8,
        "height",
        8,
        "fill",
        "#ffffff",
        "stroke",
        Stroke.INK,
        "stroke-width",
        1.5);
  }
}
