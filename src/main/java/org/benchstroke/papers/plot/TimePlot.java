package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.plot.Decimation.Sample;

/**
 * Position and setpoint against time for a whole run. A gap in the samples is left open. Immutable.
 *
 * @param id unique within the page, letters and dashes
 * @param title what it shows
 * @param description what it tells, in sentences
 * @param endSeconds the end of the run, s from its start, above 0
 * @param position the samples, % of travel, in the order of time
 * @param gapSeconds two samples further apart than this are not joined, s
 * @param setpoints the setpoints, each as long as it was in force
 * @param tests where each test began
 * @param disturbances when the signal was taken away
 */
public record TimePlot(
    String id,
    String title,
    String description,
    double endSeconds,
    List<Sample> position,
    double gapSeconds,
    List<Step> setpoints,
    List<Mark> tests,
    List<Disturbance> disturbances) {
  private static final double AREA_HEIGHT = 185.0;
  private static final double LABEL_ROW = 17.0;
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

  /** The picture as an SVG element. */
  public String svg() {
    Legend legend = legend();
    // laid out once to learn how many rows of names there are, then drawn below them
    Names names = new Names(frame(0.0), legend.height());
    Frame frame = frame(names.bottom() + 6.0);
    Svg svg = Picture.begin(id, title, description, frame.bottom() + 50.0);
    Picture.hatch(svg, id + "-lost", Stroke.SOFT);
    legend.draw(svg, 0.0);
    frame.grid(svg);
    disturbances.forEach(d -> zone(svg, frame, d));
    names.draw(svg, frame);
    setpoints(svg, frame);
    List<List<Sample>> runs = Decimation.unbroken(position, gapSeconds);
    new TraceLine(frame, seconds -> px(frame, seconds), endSeconds / frame.width())
        .draw(svg, Stroke.POSITION, runs);
    frame.axes(svg);
    return Picture.finish(svg);
  }

  private Frame frame(double top) {
    double low = position.stream().mapToDouble(Sample::value).min().orElse(0.0);
    double high = position.stream().mapToDouble(Sample::value).max().orElse(100.0);
    Axis y = Axis.travel("position, % of travel", low, high, 6);
    Axis x =
        Axis.exactly(inMinutes() ? "time, min" : "time, s", 0.0, endSeconds / unitSeconds(), 10);
    return new Frame(x, y, Picture.LEFT, top, Picture.RIGHT - Picture.LEFT, AREA_HEIGHT);
  }

  private boolean inMinutes() {
    return endSeconds > LONG_RUN_SECONDS;
  }

  private double unitSeconds() {
    return inMinutes() ? 60.0 : 1.0;
  }

  private double px(Frame frame, double seconds) {
    return frame.px(seconds / unitSeconds());
  }

  private Legend legend() {
    Legend legend = new Legend(Picture.LEFT, Picture.RIGHT);
    legend.add("setpoint", (svg, x, y) -> Stroke.SETPOINT.line(svg, x, y, x + 28, y));
    legend.add("position", (svg, x, y) -> Stroke.POSITION.line(svg, x, y, x + 28, y));
    if (!disturbances.isEmpty()) {
      legend.add(
          "signal disturbed",
          (svg, x, y) ->
              svg.shape("rect", "x", x, "y", y - 6, "width", 28, "height", 12, "fill", lostFill()));
    }
    if (Decimation.unbroken(position, gapSeconds).size() > 1) {
      legend.add("no readings", (svg, x, y) -> TraceLine.gap(svg, x + 8, y - 6, 12, 12));
    }
    if (position.stream().anyMatch(Sample::saturated)) {
      legend.add(
          "reading at the end of its range", (svg, x, y) -> TraceLine.saturated(svg, x + 14, y));
    }
    return legend;
  }

  private String lostFill() {
    return "url(#" + id + "-lost)";
  }

  private void zone(Svg svg, Frame frame, Disturbance d) {
    double from = px(frame, d.fromSeconds());
    double width = Math.max(1.0, px(frame, d.toSeconds()) - from);
    svg.shape(
        "rect",
        "x",
        from,
        "y",
        frame.top(),
        "width",
        width,
        "height",
        frame.height(),
        "fill",
        lostFill());
  }

  private void setpoints(Svg svg, Frame frame) {
    StringBuilder d = new StringBuilder();
    double last = Double.NaN;
    for (Step step : setpoints) {
      String y = Svg.number(frame.py(step.percent()));
      String from = Svg.number(px(frame, step.fromSeconds()));
      // joined only where the next setpoint follows at once
      d.append(step.fromSeconds() == last ? "L" : "M").append(from).append(' ').append(y);
      d.append('H').append(Svg.number(px(frame, step.toSeconds())));
      last = step.toSeconds();
    }
    if (d.length() > 0) {
      Stroke.SETPOINT.path(svg, d.toString());
    }
  }

  /** The names of tests and disturbances above the area, in as many rows as keep them apart. */
  private final class Names {
    private static final int MOST_ROWS = 6;
    private static final int MOST_BELOW = 3;
    private static final double LETTER = 6.6;

    private record Name(String text, double line, double start, int row, boolean test) {}

    private final List<Name> names = new ArrayList<>();
    private final List<Double> ends = new ArrayList<>();
    private final double top;

    Names(Frame frame, double top) {
      this.top = top;
      tests.forEach(test -> place(test.label(), px(frame, test.seconds()), 0, true));
      int below = ends.size();
      disturbances.forEach(d -> place(d.label(), px(frame, d.fromSeconds()), below, false));
    }

    private void place(String text, double line, int firstRow, boolean test) {
      double width = text.length() * LETTER;
      double start = Math.min(line + 4.0, Picture.WIDTH - 4.0 - width);
      int last = test ? MOST_ROWS - 1 : firstRow + MOST_BELOW - 1;
      int row = firstRow;
      while (row < ends.size() && row < last && ends.get(row) > start) {
        row++;
      }
      if (!test && row < ends.size() && ends.get(row) > start) {
        // Names on top of each other can't be read; the zone is drawn, and the table names it.
        return;
      }
      while (ends.size() <= row) {
        ends.add(0.0);
      }
      ends.set(row, start + width + 10.0);
      names.add(new Name(text, line, start, row, test));
    }

    double bottom() {
      return top + ends.size() * LABEL_ROW;
    }

    void draw(Svg svg, Frame frame) {
      for (Name name : names) {
        double y = top + (name.row + 1) * LABEL_ROW - 3.0;
        if (name.test) {
          svg.shape(
              "line",
              "x1",
              name.line,
              "y1",
              y - 11,
              "x2",
              name.line,
              "y2",
              frame.bottom(),
              "stroke",
              Stroke.INK,
              "stroke-width",
              0.8,
              "stroke-dasharray",
              "1 2");
        }
        String style = name.test ? "normal" : "italic";
        svg.text("text", name.text, "x", name.start, "y", y, "font-style", style);
      }
    }
  }
}
