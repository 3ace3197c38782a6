package org.benchstroke.papers.plot;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.benchstroke.papers.plot.Shape.Anchor;
import org.benchstroke.papers.plot.Shape.Box;
import org.benchstroke.papers.plot.Shape.Face;
import org.benchstroke.papers.plot.Shape.Point;

/**
 * Lying bars with a name before and their figures behind them, so that names may be long. Series
 * are told apart by their filling. Immutable.
 *
 * @param caption its words
 * @param x the axis of the bars
 * @param series one or more bars for each row
 * @param rows from top to bottom, at least one
 * @param together the name of the line through the sums; empty where there is none
 */
public record BarPlot(
    Caption caption, Axis x, List<Series> series, List<Row> rows, String together) {
  private static final double FIGURES = 150.0;
  private static final double BAR = 16.0;
  private static final double GAP = 10.0;
  private static final double LETTER = 7.0;
  private static final double MOST_NAME = 260.0;

  /**
   * A kind of bar.
   *
   * @param name in the legend
   * @param fill how it is filled
   */
  public record Series(String name, Shape.Fill fill) {}

  /**
   * A row.
   *
   * @param name before the bars
   * @param bars one for each series
   * @param sum the place of the line through the sums here
   */
  public record Row(String name, List<Bar> bars, OptionalDouble sum) {
    public Row {
      bars = List.copyOf(bars);
    }
  }

  /**
   * A bar.
   *
   * @param value its length, from 0
   * @param words its figures
   */
  public record Bar(double value, String words) {}

  public BarPlot {
    series = List.copyOf(series);
    rows = List.copyOf(rows);
    int bars = series.size();
    if (rows.isEmpty() || rows.stream().anyMatch(row -> row.bars().size() != bars)) {
      throw new IllegalArgumentException("each row, at least one, has a bar of each series");
    }
  }

  /** The picture. */
  public Drawing drawing() {
    Legend legend = legend();
    double left = Frame.LEFT + names();
    double height = rows.size() * rowHeight() + GAP;
    Box area = new Box(left, legend.height() + 10.0, Frame.RIGHT - FIGURES - left, height);
    Frame frame = new Frame(x, new Axis("", 0.0, 1.0, 2.0), area);
    List<Shape> shapes = new ArrayList<>(legend.shapes());
    for (double tick : x.ticks()) {
      double at = frame.px(tick);
      shapes.add(new Shape.Line(at, area.top(), at, area.bottom(), Stroke.GRID));
      String text = x.tickText(tick);
      shapes.add(new Shape.Text(text, at, area.bottom() + 18.0, Anchor.MIDDLE, Face.PLAIN));
    }
    List<Point> sums = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      double top = area.top() + GAP + i * rowHeight();
      shapes.addAll(row(frame, rows.get(i), top));
      double middle = top + series.size() * BAR / 2.0;
      rows.get(i).sum().ifPresent(sum -> sums.add(new Point(frame.px(sum), middle)));
    }
    if (!sums.isEmpty()) {
      shapes.add(new Shape.Curve(sums, Stroke.DOWN));
      sums.forEach(p -> shapes.add(new Shape.Mark(p.x(), p.y(), Marker.RING, Ink.RUST)));
    }
    shapes.add(new Shape.Area(area, Shape.Fill.NONE));
    double middle = area.left() + area.width() / 2.0;
    shapes.add(new Shape.Text(x.label(), middle, area.bottom() + 40.0, Anchor.MIDDLE, Face.PLAIN));
    return new Drawing(caption, Frame.WIDTH, area.bottom() + 50.0, shapes);
  }

  private Legend legend() {
    Legend legend = new Legend();
    for (Series each : series) {
      legend.add(
          each.name(),
          (left, middle) -> filled(new Box(left, middle - 6.0, 28.0, 12.0), each.fill()));
    }
    if (!together.isEmpty()) {
      legend.add(
          together,
          (left, middle) ->
              List.of(
                  new Shape.Line(left, middle, left + 28.0, middle, Stroke.DOWN),
                  new Shape.Mark(left + 14.0, middle, Marker.RING, Ink.RUST)));
    }
    return legend;
  }

  private double rowHeight() {
    return series.size() * BAR + GAP;
  }

  /** Beyond the usual margin, what the longest name takes. */
  private double names() {
    int longest = rows.stream().mapToInt(row -> row.name().length()).max().orElse(0);
    return Math.min(MOST_NAME, Math.max(0.0, longest * LETTER + 16.0 - Frame.LEFT));
  }

  private List<Shape> row(Frame frame, Row row, double top) {
    List<Shape> shapes = new ArrayList<>();
    Box area = frame.box();
    double middle = top + series.size() * BAR / 2.0 + 4.5;
    shapes.add(new Shape.Text(row.name(), area.left() - 8.0, middle, Anchor.END, Face.PLAIN));
    for (int i = 0; i < series.size(); i++) {
      Bar bar = row.bars().get(i);
      double upper = top + i * BAR;
      double width = frame.px(bar.value()) - area.left();
      shapes.addAll(filled(new Box(area.left(), upper, width, BAR - 3.0), series.get(i).fill()));
      shapes.add(
          new Shape.Text(bar.words(), area.right() + 8.0, upper + 11.0, Anchor.START, Face.PLAIN));
    }
    return shapes;
  }

  private static List<Shape> filled(Box box, Shape.Fill fill) {
    return List.of(new Shape.Area(box, fill), new Shape.Area(box, Shape.Fill.NONE));
  }
}
