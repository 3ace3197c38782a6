package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * Readings one after the other with the levels that they are compared with, each named beside its
 * line. A reading that is a signal is a black square, and has another one below the chart in the
 * row of what it is a signal of. Immutable.
 *
 * @param caption its words
 * @param y the vertical axis
 * @param x what the readings are counted by
 * @param readings at least one, by rising number
 * @param levels lines across, each with a value for every reading
 * @param signals a row for each kind
 */
public record ControlPlot(
    Caption caption,
    Axis y,
    String x,
    List<Reading> readings,
    List<Level> levels,
    List<Signals> signals) {
  private static final double HEIGHT = 215.0;
  private static final double NAMES = 150.0;
  private static final double ROW = 16.0;
  private static final int TICKS = 12;

  /** With more of them rings would cover each other. */
  private static final int MOST_RINGS = 80;

  /**
   * A reading.
   *
   * @param number its place, as people count: from 1
   * @param value in the unit of the axis
   * @param baseline whether the levels are from it
   */
  public record Reading(int number, double value, boolean baseline) {}

  /**
   * The signals of one kind.
   *
   * @param name a few words: they stand behind the row
   * @param numbers of the readings
   */
  public record Signals(String name, Set<Integer> numbers) {
    public Signals {
      numbers = Set.copyOf(numbers);
    }
  }

  /**
   * A line across.
   *
   * @param name its name with its value
   * @param stroke how it is drawn
   * @param values one for each reading
   */
  public record Level(String name, Stroke stroke, List<Double> values) {
    public Level {
      values = List.copyOf(values);
    }

    private double last() {
      return values.get(values.size() - 1);
    }
  }

  public ControlPlot {
    readings = List.copyOf(readings);
    levels = List.copyOf(levels);
    signals = List.copyOf(signals);
    if (readings.isEmpty()) {
      throw new IllegalArgumentException("a chart has at least one reading");
    }
  }

  /** The picture. */
  public Drawing drawing() {
    Legend legend = legend();
    double left = Frame.left(y);
    Box area = new Box(left, legend.height() + 10.0, Frame.RIGHT - NAMES - left, HEIGHT);
    Frame frame = new Frame(numbers(), y, area);
    List<Shape> shapes = new ArrayList<>(legend.shapes());
    shapes.addAll(baselines(frame));
    shapes.addAll(frame.grid());
    List<Shape> lines = new ArrayList<>();
    levels.forEach(level -> lines.add(line(frame, level)));
    lines.add(new Shape.Curve(readings.stream().map(r -> at(frame, r)).toList(), Stroke.POSITION));
    shapes.add(new Shape.Clipped(area, lines));
    readings.forEach(r -> mark(frame, r).ifPresent(shapes::add));
    shapes.addAll(names(frame));
    shapes.addAll(frame.axes());
    double below = area.bottom() + 50.0;
    for (int i = 0; i < signals.size(); i++) {
      shapes.addAll(row(frame, signals.get(i), below + (i + 0.5) * ROW));
    }
    double rows = signals.isEmpty() ? 0.0 : signals.size() * ROW + 4.0;
    return new Drawing(caption, Frame.WIDTH, below + rows, shapes);
  }

  /** A square for each, below its reading. */
  private static List<Shape> row(Frame frame, Signals signals, double middle) {
    List<Shape> row = new ArrayList<>();
    Box area = frame.box();
    row.add(new Shape.Line(area.left(), middle, area.right(), middle, Stroke.GRID));
    signals.numbers().stream()
        .sorted()
        .forEach(n -> row.add(new Shape.Mark(frame.px(n), middle, Marker.SQUARE, Ink.BLACK)));
    row.add(
        new Shape.Text(signals.name(), area.right() + 8.0, middle + 4.5, Anchor.START, Face.PLAIN));
    return row;
  }

  private boolean signalled(Reading reading) {
    return signals.stream().anyMatch(s -> s.numbers().contains(reading.number()));
  }

  private Legend legend() {
    Legend legend = new Legend();
    legend.add(
        "reading",
        (left, middle) ->
            List.of(
                new Shape.Line(left, middle, left + 28.0, middle, Stroke.POSITION),
                new Shape.Mark(left + 14.0, middle, Marker.RING, Ink.BLUE)));
    if (readings.stream().anyMatch(this::signalled)) {
      legend.add(
          "signal; its rule stands below",
          (left, middle) -> List.of(new Shape.Mark(left + 14.0, middle, Marker.SQUARE, Ink.BLACK)));
    }
    if (readings.stream().anyMatch(Reading::baseline)) {
      legend.add("baseline: the limits are from these", Legend.area(Shape.Fill.HATCHED));
    }
    return legend;
  }

  /** Ticks on whole numbers only. */
  private Axis numbers() {
    int first = readings.get(0).number();
    int last = readings.get(readings.size() - 1).number();
    double step = Math.max(1.0, Axis.niceStep((last - first + 1.0) / TICKS));
    return new Axis(x, first - 0.5, last + 0.5, step);
  }

  /** A strip below each run of the baseline, half a reading wider on both sides. */
  private List<Shape> baselines(Frame frame) {
    List<Shape> strips = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= readings.size(); i++) {
      boolean ends =
          i == readings.size() || readings.get(i).baseline() != readings.get(i - 1).baseline();
      if (ends && readings.get(i - 1).baseline()) {
        double left = frame.px(readings.get(from).number() - 0.5);
        double right = frame.px(readings.get(i - 1).number() + 0.5);
        Box strip = new Box(left, frame.box().top(), right - left, frame.box().height());
        strips.add(new Shape.Area(strip, Shape.Fill.HATCHED));
      }
      from = ends ? i : from;
    }
    return strips;
  }

  private Shape line(Frame frame, Level level) {
    List<Point> points = new ArrayList<>();
    points.add(new Point(frame.box().left(), frame.py(level.values().get(0))));
    for (int i = 0; i < readings.size(); i++) {
      points.add(new Point(frame.px(readings.get(i).number()), frame.py(level.values().get(i))));
    }
    points.add(new Point(frame.box().right(), frame.py(level.last())));
    return new Shape.Curve(points, level.stroke());
  }

  private static Point at(Frame frame, Reading reading) {
    return new Point(frame.px(reading.number()), frame.py(reading.value()));
  }

  private Optional<Shape> mark(Frame frame, Reading reading) {
    Point at = at(frame, reading);
    if (signalled(reading)) {
      return Optional.of(new Shape.Mark(at.x(), at.y(), Marker.SQUARE, Ink.BLACK));
    }
    return readings.size() > MOST_RINGS
        ? Optional.empty()
        : Optional.of(new Shape.Mark(at.x(), at.y(), Marker.RING, Ink.BLUE));
  }

  /** Names beside the ends of their lines, moved down where two would cover each other. */
  private List<Shape> names(Frame frame) {
    TreeMap<Double, String> places = new TreeMap<>();
    double free = frame.box().top() - 6.0;
    for (Level level :
        levels.stream().sorted(Comparator.comparingDouble(Level::last).reversed()).toList()) {
      double place = Math.max(free, frame.py(level.last()) + 4.5);
      places.put(place, level.name());
      free = place + ROW;
    }
    List<Shape> names = new ArrayList<>();
    double left = frame.box().right() + 8.0;
    places.forEach(
        (place, name) -> names.add(new Shape.Text(name, left, place, Anchor.START, Face.PLAIN)));
    return names;
  }
}
