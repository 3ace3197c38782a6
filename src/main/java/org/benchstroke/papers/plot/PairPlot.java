package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Shape.Box;

/**
 * Traces over one time axis, told apart by their dashes. What is missing of one stays open.
 * Immutable.
 *
 * @param caption its words
 * @param x the horizontal axis, s
 * @param y the vertical axis
 * @param traces the last one on top
 */
public record PairPlot(Caption caption, Axis x, Axis y, List<Compared> traces) {
  private static final double HEIGHT = 215.0;

  /**
   * A trace.
   *
   * @param name in the legend
   * @param stroke how it is drawn
   * @param runs its unbroken pieces, in the order of time
   */
  public record Compared(String name, Stroke stroke, List<List<Sample>> runs) {
    public Compared {
      runs = runs.stream().map(List::copyOf).toList();
    }
  }

  public PairPlot {
    traces = List.copyOf(traces);
  }

  /** The picture. */
  public Drawing drawing() {
    Legend legend = new Legend();
    traces.forEach(t -> legend.add(t.name(), Legend.line(t.stroke())));
    double left = Frame.left(y);
    Frame frame =
        new Frame(x, y, new Box(left, legend.height() + 10.0, Frame.RIGHT - left, HEIGHT));
    List<Shape> shapes = new ArrayList<>(legend.shapes());
    shapes.addAll(frame.grid());
    TraceLine line = new TraceLine(frame, frame::px, (x.high() - x.low()) / frame.box().width());
    List<Shape> lines = new ArrayList<>();
    for (Compared trace : traces) {
      // one by one: a gap of one is no gap of the other, so no grey strip stands for it
      trace.runs().forEach(run -> lines.addAll(line.shapes(trace.stroke(), List.of(run))));
    }
    shapes.add(new Shape.Clipped(frame.box(), lines));
    shapes.addAll(frame.axes());
    return new Drawing(caption, Frame.WIDTH, frame.box().bottom() + 50.0, shapes);
  }
}
