package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;

/**
 * A small plot, half a page wide, its title above it. Moments are named in rows between title and
 * area, so that none covers the trace. Immutable.
 *
 * @param caption its words; the title in a few of them
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param lines the lines, the last one on top
 * @param zones hatched strips
 * @param moments named places on the horizontal axis
 * @param dots single points, drawn last
 */
public record Panel(
    Caption caption,
    Axis x,
    Axis y,
    List<Line> lines,
    List<Zone> zones,
    List<Moment> moments,
    List<Dot> dots) {
  private static final double WIDTH = 420.0;
  private static final double LEFT = 66.0;
  private static final double RIGHT = WIDTH - 10.0;
  private static final double HEIGHT = 140.0;
  private static final double TITLE = 20.0;
  private static final double ROW = 15.0;
  private static final double LETTER = 7.0;

  /**
   * A line; its runs are not joined.
   *
   * @param stroke how it is drawn
   * @param runs points in the order of x, {@code seconds} being x
   * @param gaps whether what is between the runs is missing, and so grey
   */
  public record Line(Stroke stroke, List<List<Sample>> runs, boolean gaps) {
    public Line {
      runs = runs.stream().map(List::copyOf).toList();
    }
  }

  /**
   * A hatched strip across the area.
   *
   * @param from its lower edge
   * @param to its upper edge
   * @param upright whether it runs from bottom to top, its edges on the horizontal axis
   */
  public record Zone(double from, double to, boolean upright) {}

  /**
   * A named moment.
   *
   * @param x where
   * @param label its name, a few letters
   */
  public record Moment(double x, String label) {}

  /**
   * A point.
   *
   * @param x where
   * @param y its value
   * @param marker its shape
   */
  public record Dot(double x, double y, Marker marker) {}

  public Panel {
    lines = List.copyOf(lines);
    zones = List.copyOf(zones);
    moments = List.copyOf(moments);
    dots = List.copyOf(dots);
  }

  /** Lines alone. */
  public Panel(Caption caption, Axis x, Axis y, List<Line> lines) {
    this(caption, x, y, lines, List.of(), List.of(), List.of());
  }

  /** The picture. */
  public Drawing drawing() {
    NameRows rows = new NameRows(TITLE, ROW);
    // placed first: how many rows there are says where the area begins
    List<Shape.Text> names = moments.stream().map(m -> name(rows, m)).toList();
    Frame frame = frame(rows.bottom() + 4.0);
    List<Shape> shapes = new ArrayList<>();
    shapes.add(new Shape.Text(caption.title(), LEFT, 13.0, Anchor.START, Face.BOLD));
    shapes.addAll(frame.grid());
    zones.forEach(zone -> zone(frame, zone).ifPresent(shapes::add));
    for (int i = 0; i < names.size(); i++) {
      double at = frame.px(moments.get(i).x());
      double from = names.get(i).y() - 10.0;
      shapes.add(new Shape.Line(at, from, at, frame.box().bottom(), Stroke.MOMENT));
      shapes.add(names.get(i));
    }
    shapes.add(new Shape.Clipped(frame.box(), traces(frame)));
    for (Dot dot : dots) {
      shapes.add(new Shape.Mark(frame.px(dot.x()), frame.py(dot.y()), dot.marker(), Ink.BLACK));
    }
    shapes.addAll(frame.axes());
    return new Drawing(caption, WIDTH, frame.box().bottom() + 48.0, shapes);
  }

  private List<Shape> traces(Frame frame) {
    TraceLine trace = new TraceLine(frame, frame::px, (x.high() - x.low()) / frame.box().width());
    List<Shape> shapes = new ArrayList<>();
    for (Line line : lines) {
      if (line.gaps()) {
        shapes.addAll(trace.shapes(line.stroke(), line.runs()));
      } else {
        line.runs().forEach(run -> shapes.addAll(trace.shapes(line.stroke(), List.of(run))));
      }
    }
    return shapes;
  }

  private Frame frame(double top) {
    return new Frame(x, y, new Box(LEFT, top, RIGHT - LEFT, HEIGHT));
  }

  private Optional<Shape> zone(Frame frame, Zone zone) {
    boolean upright = zone.upright();
    Axis axis = upright ? x : y;
    double from = Math.max(axis.low(), zone.from());
    double to = Math.min(axis.high(), zone.to());
    if (from >= to) {
      return Optional.empty();
    }
    Box area = frame.box();
    Box box =
        upright
            ? new Box(frame.px(from), area.top(), frame.px(to) - frame.px(from), area.height())
            : new Box(area.left(), frame.py(to), area.width(), frame.py(from) - frame.py(to));
    return Optional.of(new Shape.Area(box, Shape.Fill.HATCHED));
  }

  /** From left to right, each in the first row where it is free. */
  private Shape.Text name(NameRows rows, Moment moment) {
    double width = moment.label().length() * LETTER;
    double start = Math.min(frame(0.0).px(moment.x()) + 3.0, WIDTH - width);
    int row = rows.free(start, 0, rows.count());
    return rows.put(row, moment.label(), start, start + width + 6.0, Face.PLAIN);
  }
}
