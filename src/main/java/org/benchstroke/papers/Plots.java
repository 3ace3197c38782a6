package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Truth;
import org.benchstroke.papers.plot.Axis;
import org.benchstroke.papers.plot.Band;
import org.benchstroke.papers.plot.Branch;
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Stroke;
import org.benchstroke.papers.plot.XyPlot;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;

/** The pictures of a report. Stateless. */
final class Plots {
  private static final String SETPOINT = "setpoint, % of travel";

  private Plots() {}

  static Optional<Section> section(JudgedRun run) {
    List<Block> blocks = new ArrayList<>();
    error(run).ifPresent(blocks::add);
    position(run).ifPresent(blocks::add);
    RunTrace.picture(run).ifPresent(blocks::add);
    return Optional.of(new Section("Plots", blocks)).filter(s -> !blocks.isEmpty());
  }

  private static Optional<Block> position(JudgedRun run) {
    List<Branch> branches = new ArrayList<>();
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      for (Direction direction : Direction.values()) {
        List<List<Branch.Point>> runs =
            TravelTable.readings(run, truth).stream()
                .map(RestReading::cycle)
                .distinct()
                .sorted()
                .flatMap(cycle -> unbroken(cycle(run, truth, direction, cycle)).stream())
                .toList();
        add(branches, truth, direction, runs);
      }
    }
    if (branches.isEmpty()) {
      return Optional.empty();
    }
    String title = "Position against setpoint";
    XyPlot plot =
        new XyPlot(
            new Caption(
                "position-plot",
                title,
                "Position at rest against setpoint. The readings are in the table of travel."),
            Axis.travel(SETPOINT, xs(branches), 11),
            Axis.travel("position, % of travel", ys(branches), 6),
            branches,
            true,
            Optional.empty());
    return Optional.of(
        new Block.Picture(
            title + ", at rest, approached from below (up) and above (down)", plot.drawing()));
  }

  private static DoubleStream xs(List<Branch> branches) {
    return branches.stream().flatMap(Branch::points).mapToDouble(Branch.Point::x);
  }

  private static DoubleStream ys(List<Branch> branches) {
    return branches.stream().flatMap(Branch::points).mapToDouble(Branch.Point::y);
  }

  private static Optional<Block> error(JudgedRun run) {
    List<Branch> branches = new ArrayList<>();
    for (Truth truth : List.of(Truth.FEEDBACK, Truth.STEM)) {
      List<TravelTable.Row> rows = TravelTable.rows(run, truth);
      add(branches, truth, Direction.UP, errors(rows, TravelTable.Row::up));
      add(branches, truth, Direction.DOWN, errors(rows, TravelTable.Row::down));
    }
    if (branches.isEmpty()) {
      return Optional.empty();
    }
    Optional<Band> band = run.unit().limit(MeasureKind.TRAVEL_ERROR).map(l -> band(l, branches));
    String title = "Error against setpoint";
    XyPlot plot =
        new XyPlot(
            new Caption("error-plot", title, description(run, branches)),
            Axis.travel(SETPOINT, xs(branches), 11),
            errorAxis(branches, band),
            branches,
            false,
            band);
    return Optional.of(
        new Block.Picture(
            title + "; bars are ± U. Points of one setpoint stand side by side.", plot.drawing()));
  }

  private static List<List<Branch.Point>> errors(
      List<TravelTable.Row> rows, Function<TravelTable.Row, Optional<TravelTable.Figure>> side) {
    List<Optional<Branch.Point>> points = new ArrayList<>();
    for (TravelTable.Row row : rows) {
      points.add(
          side.apply(row)
              .map(f -> new Branch.Point(row.setpoint(), f.value(), f.half().orElse(0.0))));
    }
    return unbroken(points);
  }

  /** One cycle's readings by rising setpoint. */
  private static List<Optional<Branch.Point>> cycle(
      JudgedRun run, Truth truth, Direction direction, int cycle) {
    List<Optional<Branch.Point>> points = new ArrayList<>();
    for (TravelTable.Row row : TravelTable.rows(run, truth)) {
      points.add(
          TravelTable.readings(run, truth).stream()
              .filter(r -> r.direction() == direction && r.cycle() == cycle)
              .filter(r -> r.setpointPercent() == row.setpoint())
              .map(r -> new Branch.Point(row.setpoint(), r.meanPercent(), 0.0))
              .findFirst());
    }
    return points;
  }

  /** Splits where a point is missing: no line is drawn across it. */
  private static List<List<Branch.Point>> unbroken(List<Optional<Branch.Point>> points) {
    List<List<Branch.Point>> runs = new ArrayList<>();
    List<Branch.Point> current = new ArrayList<>();
    for (Optional<Branch.Point> point : points) {
      point.ifPresent(current::add);
      if (point.isEmpty() && !current.isEmpty()) {
        runs.add(List.copyOf(current));
        current.clear();
      }
    }
    if (!current.isEmpty()) {
      runs.add(List.copyOf(current));
    }
    return runs;
  }

  private static void add(
      List<Branch> branches, Truth truth, Direction direction, List<List<Branch.Point>> runs) {
    if (runs.isEmpty()) {
      return;
    }
    boolean up = direction == Direction.UP;
    boolean stem = truth == Truth.STEM;
    Marker solid = up ? Marker.TRIANGLE_UP : Marker.TRIANGLE_DOWN;
    Marker hollow = up ? Marker.HOLLOW_TRIANGLE_UP : Marker.HOLLOW_TRIANGLE_DOWN;
    Stroke ofFeedback = up ? Stroke.UP : Stroke.DOWN;
    Stroke ofStem = up ? Stroke.STEM_UP : Stroke.STEM_DOWN;
    String label = truth.text() + " " + direction.text();
    branches.add(new Branch(label, stem ? hollow : solid, stem ? ofStem : ofFeedback, runs));
  }

  private static Band band(Limit limit, List<Branch> branches) {
    double widest =
        branches.stream().flatMap(Branch::points).mapToDouble(Branch.Point::bar).max().orElse(0.0);
    double guard = limit.rule().guardFactor() * widest;
    String width = Figures.half(guard) + " %";
    return new Band(
        "limit " + limit.text(), limit.low(), limit.high(), guard, "guard band, widest " + width);
  }

  private static Axis errorAxis(List<Branch> branches, Optional<Band> band) {
    DoubleStream ends =
        branches.stream()
            .flatMap(Branch::points)
            .flatMapToDouble(p -> DoubleStream.of(p.y() - p.bar(), p.y() + p.bar()));
    DoubleStream limits =
        band.stream().flatMapToDouble(b -> DoubleStream.concat(spread(b.low()), spread(b.high())));
    DoubleStream zeroAndLimits = DoubleStream.concat(DoubleStream.of(0.0), limits);
    return Axis.covering("error, % of travel", DoubleStream.concat(zeroAndLimits, ends), 8);
  }

  /** A limit and a little beyond it, so that its line doesn't lie on the edge. */
  private static DoubleStream spread(OptionalDouble limit) {
    return limit.stream().map(v -> v * 1.1);
  }

  private static String description(JudgedRun run, List<Branch> branches) {
    double low = ys(branches).min().orElse(0.0);
    double high = ys(branches).max().orElse(0.0);
    String limit =
        run.unit()
            .limit(MeasureKind.TRAVEL_ERROR)
            .map(l -> " The limit is " + l.text() + ".")
            .orElse(" No limit is stated.");
    return "Errors run from "
        + Numbers.signed(low, 2)
        + " % to "
        + Numbers.signed(high, 2)
        + " % of travel."
        + limit
        + " The values are in the table of travel.";
  }
}
