package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Decimation.Sample;

/**
 * A small plot, half a page wide, its title above it. Moments are named in rows between title and
 * area, so that none covers the trace. Immutable.
 *
 * @param id unique within the page, letters, digits and dashes
 * @param title what it shows, in a few words
 * @param description what it tells, in sentences, for those who can't see it
 * @param x the horizontal axis
 * @param y the vertical axis
 * @param lines the lines, the last one on top
 * @param zones hatched strips
 * @param moments named places on the horizontal axis
 * @param dots single points, drawn last
 */
public record Panel(
    String id,
    String title,
    String description,
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

  private record Name(Moment moment, double start, int row) {}

  public Panel {
    lines = List.copyOf(lines);
    zones = List.copyOf(zones);
    moments = List.copyOf(moments);
    dots = List.copyOf(dots);
  }

  /** The picture as an SVG element. */
  public String svg() {
    List<Name> names = names(frame(0.0));
    double rows = names.stream().mapToInt(Name::row).max().orElse(-1) + 1.0;
    Frame frame = frame(TITLE + rows * ROW + 4.0);
    Svg svg = Picture.begin(id, title, description, WIDTH, frame.bottom() + 48.0);
    Picture.hatch(svg, id + "-zone", Stroke.SOFT);
    svg.text("text", title, "x", LEFT, "y", 13, "font-weight", "bold");
    frame.grid(svg);
    zones.forEach(zone -> zone(svg, frame, zone));
    names.forEach(name -> name(svg, frame, name));
    clip(svg, frame);
    svg.open("g", "clip-path", "url(#" + id + "-area)");
    double column = (x.high() - x.low()) / frame.width();
    lines.forEach(line -> draw(svg, new TraceLine(frame, frame::px, column), line));
    svg.close("g");
    dots.forEach(dot -> dot.marker().draw(svg, frame.px(dot.x()), frame.py(dot.y()), Stroke.INK));
    frame.axes(svg);
    return Picture.finish(svg);
  }

  private static void draw(Svg svg, TraceLine trace, Line line) {
    if (line.gaps()) {
      trace.draw(svg, line.stroke(), line.runs());
    } else {
      line.runs().forEach(run -> trace.draw(svg, line.stroke(), List.of(run)));
    }
  }

  private Frame frame(double top) {
    return new Frame(x, y, LEFT, top, RIGHT - LEFT, HEIGHT);
  }

  private void clip(Svg svg, Frame frame) {
    svg.open("clipPath", "id", id + "-area");
    svg.shape(
        "rect",
        "x",
        frame.left(),
        "y",
        frame.top(),
        "width",
        frame.width(),
        "height",
        frame.height());
    svg.close("clipPath");
  }

  private void zone(Svg svg, Frame frame, Zone zone) {
    boolean upright = zone.upright();
    Axis axis = upright ? x : y;
    double from = Math.max(axis.low(), zone.from());
    double to = Math.min(axis.high(), zone.to());
    if (from >= to) {
      return;
    }
    double left = upright ? frame.px(from) : frame.left();
    double top = upright ? frame.top() : frame.py(to);
    double width = upright ? frame.px(to) - left : frame.width();
    double height = upright ? frame.height() : frame.py(from) - top;
    svg.shape("rect", "x", left, "y", top, "width", width, "height", height, "fill", zoneFill());
  }

  private String zoneFill() {
    return "url(#" + id + "-zone)";
  }

  /** Names from left to right, each in the first row where it is free. */
  private List<Name> names(Frame frame) {
    List<Name> names = new ArrayList<>();
    List<Double> ends = new ArrayList<>();
    for (Moment moment : moments) {
      double width = moment.label().length() * LETTER;
      double start = Math.min(frame.px(moment.x()) + 3.0, WIDTH - width);
      int row = 0;
      while (row < ends.size() && ends.get(row) > start) {
        row++;
      }
      if (row == ends.size()) {
        ends.add(0.0);
      }
      ends.set(row, start + width + 6.0);
      names.add(new Name(moment, start, row));
    }
    return names;
  }

  private static void name(Svg svg, Frame frame, Name name) {
    double at = frame.px(name.moment().x());
    double base = TITLE + (name.row() + 1) * ROW - 3.0;
    svg.shape(
        "line",
        "x1",
        at,
        "y1",
        base - 10,
        "x2",
        at,
        "y2",
        frame.bottom(),
        "stroke",
        Stroke.INK,
        "stroke-width",
        0.9,
        "stroke-dasharray",
        "2 2");
    svg.text("text", name.moment().label(), "x", name.start(), "y", base);
  }
}
