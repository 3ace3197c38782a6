package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * Position and setpoint against time for a whole run. A gap in the samples is left open. Immutable.
 *
 * @param caption its words
 * @param endSeconds the end of the run, s from its start, above 0
 * @param position the samples, % of travel, in the order of time
 * @param gapSeconds two samples further apart than this are not joined, s
 * @param setpoints the setpoints, each as long as it was in force
 * @param tests where each test began
 * @param disturbances when the signal was taken away
 */
public record TimePlot(
    Caption caption,
    double endSeconds,
    List<Sample> position,
    double gapSeconds,
    List<Step> setpoints,
    List<Mark> tests,
    List<Disturbance> disturbances) {
  private static final double AREA_HEIGHT = 185.0;
  private static final double LABEL_ROW = 17.0;
  private static final double LETTER = 6.6;
  private static final int MOST_ROWS = 6;
  private static final int MOST_BELOW = 3;
  private static final double LONG_RUN_SECONDS = 300.0;

  /**
   * A setpoint in force.
   *
   * @param fromSeconds its start, s
   * @param toSeconds its end, s
   * @param percent % of travel
   */
  public record Step(double fromSeconds, double toSeconds, double percent) {}

  /**
   * A moment with a name.
   *
   * @param seconds when, s
   * @param label its name
   */
  public record Mark(double seconds, String label) {}

  /**
   * A time without a proper signal.
   *
   * @param fromSeconds its start, s
   * @param toSeconds its end, s
   * @param label what was done
   */
  public record Disturbance(double fromSeconds, double toSeconds, String label) {}

  public TimePlot {
    position = List.copyOf(position);
    setpoints = List.copyOf(setpoints);
    tests = List.copyOf(tests);
    disturbances = List.copyOf(disturbances);
  }

  /** The picture. */
  public Drawing drawing() {
    Legend legend = legend();
    NameRows rows = new NameRows(legend.height(), LABEL_ROW);
    // placed first: how many rows there are says where the area begins
    List<Shape.Text> begun = tests.stream().map(t -> test(rows, t)).toList();
    int below = rows.count();
    List<Shape.Text> lost =
        disturbances.stream().flatMap(d -> disturbance(rows, d, below).stream()).toList();
    Frame frame = frame(rows.bottom() + 6.0);
    List<Shape> shapes = new ArrayList<>(legend.shapes());
    shapes.addAll(frame.grid());
    disturbances.forEach(d -> shapes.add(zone(frame, d)));
    for (int i = 0; i < begun.size(); i++) {
      double at = px(frame, tests.get(i).seconds());
      double from = begun.get(i).y() - 11.0;
      shapes.add(new Shape.Line(at, from, at, frame.box().bottom(), Stroke.TEST));
    }
    shapes.addAll(begun);
    shapes.addAll(lost);
    shapes.addAll(setpoints(frame));
    shapes.addAll(
        new TraceLine(frame, seconds -> px(frame, seconds), endSeconds / frame.box().width())
            .shapes(Stroke.POSITION, Decimation.unbroken(position, gapSeconds)));
    shapes.addAll(frame.axes());
    return new Drawing(caption, Frame.WIDTH, frame.box().bottom() + 50.0, shapes);
  }

  private Shape.Text test(NameRows rows, Mark test) {
    double start = nameStart(test.label(), test.seconds());
    int row = rows.free(start, 0, MOST_ROWS - 1);
    return rows.put(row, test.label(), start, nameEnd(test.label(), start), Face.PLAIN);
  }

  /** Names on top of each other can't be read; the zone is drawn, and the table names it. */
  private Optional<Shape.Text> disturbance(NameRows rows, Disturbance d, int below) {
    double start = nameStart(d.label(), d.fromSeconds());
    int row = rows.free(start, below, below + MOST_BELOW - 1);
    return rows.isFree(row, start)
        ? Optional.of(rows.put(row, d.label(), start, nameEnd(d.label(), start), Face.ITALIC))
        : Optional.empty();
  }

  private double nameStart(String name, double seconds) {
    double line = px(frame(0.0), seconds);
    return Math.min(line + 4.0, Frame.WIDTH - 4.0 - name.length() * LETTER);
  }

  private static double nameEnd(String name, double start) {
    return start + name.length() * LETTER + 10.0;
  }

  private Frame frame(double top) {
    boolean minutes = unitSeconds() > 1.0;
    Axis x = Axis.exactly(minutes ? "time, min" : "time, s", 0.0, endSeconds / unitSeconds(), 10);
    Axis y = Axis.travel("position, % of travel", position.stream().mapToDouble(Sample::value), 6);
    return Frame.wide(x, y, top, AREA_HEIGHT);
  }

  private double unitSeconds() {
    return endSeconds > LONG_RUN_SECONDS ? 60.0 : 1.0;
  }

  private double px(Frame frame, double seconds) {
    return frame.px(seconds / unitSeconds());
  }

  private Legend legend() {
    Legend legend = new Legend();
    legend.add("setpoint", Legend.line(Stroke.SETPOINT));
    legend.add("position", Legend.line(Stroke.POSITION));
    if (!disturbances.isEmpty()) {
      legend.add("signal disturbed", Legend.area(Shape.Fill.HATCHED));
    }
    if (Decimation.unbroken(position, gapSeconds).size() > 1) {
      legend.add(
          "no readings",
          (x, y) ->
              List.of(new Shape.Area(new Box(x + 8.0, y - 6.0, 12.0, 12.0), Shape.Fill.GREY)));
    }
    if (position.stream().anyMatch(Sample::saturated)) {
      legend.add(
          "reading at the end of its range", (x, y) -> List.of(TraceLine.saturated(x + 14.0, y)));
    }
    return legend;
  }

  private Shape zone(Frame frame, Disturbance d) {
    double from = px(frame, d.fromSeconds());
    double width = Math.max(1.0, px(frame, d.toSeconds()) - from);
    return new Shape.Area(
        new Box(from, frame.box().top(), width, frame.box().height()), Shape.Fill.HATCHED);
  }

  /** Joined only where the next setpoint follows at once. */
  private List<Shape> setpoints(Frame frame) {
    List<Shape> lines = new ArrayList<>();
    List<Point> line = new ArrayList<>();
    for (int i = 0; i < setpoints.size(); i++) {
      Step step = setpoints.get(i);
      double y = frame.py(step.percent());
      line.add(new Point(px(frame, step.fromSeconds()), y));
      line.add(new Point(px(frame, step.toSeconds()), y));
      boolean last = i + 1 == setpoints.size();
      if (last || setpoints.get(i + 1).fromSeconds() != step.toSeconds()) {
        lines.add(new Shape.Curve(line, Stroke.SETPOINT));
        line.clear();
      }
    }
    return lines;
  }
}
