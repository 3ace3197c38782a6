package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.CheckStandard;
import org.benchstroke.core.statistics.CheckState;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.GaugeStudy;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.papers.plot.Axis;
import org.benchstroke.papers.plot.Band;
import org.benchstroke.papers.plot.BarPlot;
import org.benchstroke.papers.plot.Branch;
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.ControlPlot;
import org.benchstroke.papers.plot.ControlPlot.Level;
import org.benchstroke.papers.plot.ControlPlot.Reading;
import org.benchstroke.papers.plot.ControlPlot.Signals;
import org.benchstroke.papers.plot.Decimation.Sample;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.PairPlot;
import org.benchstroke.papers.plot.Shape;
import org.benchstroke.papers.plot.Stroke;
import org.benchstroke.papers.plot.XyPlot;

/** The pictures of a shop's history. Stateless, safe for any thread. */
public final class HistoryPlots {
  private static final int TICKS = 7;

  private HistoryPlots() {}

  /**
   * What a picture is of.
   *
   * @param id unique within the page, letters, digits and dashes
   * @param title what it shows
   * @param quantity what its values are, with their unit: "travel error, % of travel"
   */
  public record Subject(String id, String title, String quantity) {
    private Caption caption(String description) {
      return new Caption(id, title, description);
    }
  }

  /** A control chart with its limits, and a row for each rule that was met. */
  public static Drawing control(Subject subject, ControlChart chart) {
    List<ControlChart.Point> points = chart.points();
    Axis axis =
        Axis.around(
            subject.quantity(),
            points.stream().flatMapToDouble(p -> DoubleStream.of(p.value(), p.low(), p.high())),
            TICKS);
    Map<ChartRule, Set<Integer>> met = new EnumMap<>(ChartRule.class);
    for (ControlChart.Signal signal : chart.signals()) {
      met.computeIfAbsent(signal.rule(), r -> new TreeSet<>()).add(signal.index() + 1);
    }
    List<Reading> readings =
        points.stream().map(p -> new Reading(p.index() + 1, p.value(), p.baseline())).toList();
    List<Level> levels =
        List.of(
            level("upper limit", axis, Stroke.LIMIT, points, ControlChart.Point::high),
            level("centre", axis, Stroke.ZERO, points, p -> chart.centre()),
            level("lower limit", axis, Stroke.LIMIT, points, ControlChart.Point::low));
    long signals = chart.signals().stream().map(ControlChart.Signal::index).distinct().count();
    String told =
        signals == 0
            ? "No rule is met."
            : signals + (signals == 1 ? " point is a signal." : " points are signals.");
    return new ControlPlot(
            subject.caption(told + " " + described(levels)),
            axis,
            counted(chart.kind()),
            readings,
            levels,
            met.entrySet().stream().map(e -> new Signals(words(e.getKey()), e.getValue())).toList())
        .drawing();
  }

  private static String counted(ControlChart.Kind kind) {
    return switch (kind) {
      case INDIVIDUALS, EWMA -> "reading, number";
      case MOVING_RANGE -> "reading, number; each with the one before it";
      case MEANS, RANGES -> "subgroup, number";
    };
  }

  /** A rule in a few words. */
  public static String words(ChartRule rule) {
    return switch (rule) {
      case BEYOND_LIMIT -> "beyond a limit";
      case TWO_OF_THREE -> "2 of 3 beyond 2σ";
      case FOUR_OF_FIVE -> "4 of 5 beyond 1σ";
      case EIGHT_ON_ONE_SIDE -> "8 on one side";
      case SIX_TRENDING -> "6 rising or falling";
      case FOURTEEN_ALTERNATING -> "14 up and down";
    };
  }

  /**
   * A bench's own reference with the lines at 2σ and 3σ.
   *
   * @throws IllegalArgumentException if nothing was judged
   */
  public static Drawing check(Subject subject, CheckStandard check) {
    List<CheckStandard.Judged> judged = check.judged();
    double centre = check.centre();
    double sigma = check.sigma();
    Axis axis =
        Axis.around(
            subject.quantity(),
            DoubleStream.concat(
                judged.stream().mapToDouble(j -> j.reading().value()),
                DoubleStream.of(centre - 3.0 * sigma, centre + 3.0 * sigma)),
            TICKS);
    Map<String, Set<Integer>> rows = new LinkedHashMap<>();
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < judged.size(); i++) {
      CheckStandard.Judged j = judged.get(i);
      int number = i + 1;
      words(j.state())
          .ifPresent(words -> rows.computeIfAbsent(words, w -> new TreeSet<>()).add(number));
      readings.add(new Reading(number, j.reading().value(), j.baseline()));
    }
    List<Level> levels =
        List.of(
            flat("stop, 3σ:", axis, Stroke.LIMIT, centre + 3.0 * sigma, judged.size()),
            flat("warning, 2σ:", axis, Stroke.MODEL, centre + 2.0 * sigma, judged.size()),
            flat("centre", axis, Stroke.ZERO, centre, judged.size()),
            flat("warning, 2σ:", axis, Stroke.MODEL, centre - 2.0 * sigma, judged.size()),
            flat("stop, 3σ:", axis, Stroke.LIMIT, centre - 3.0 * sigma, judged.size()));
    String told =
        (check.state().good() ? "The newest reading is good. " : "The bench is stopped. ")
            + "No good: "
            + check.stops().size()
            + " of "
            + judged.size()
            + ".";
    return new ControlPlot(
            subject.caption(told + " " + described(levels)),
            axis,
            "check, number",
            readings,
            levels,
            rows.entrySet().stream().map(e -> new Signals(e.getKey(), e.getValue())).toList())
        .drawing();
  }

  private static Optional<String> words(CheckState state) {
    if (state instanceof CheckState.Warning) {
      return Optional.of("warning, beyond 2σ");
    }
    if (state instanceof CheckState.Stop) {
      return Optional.of("stop, beyond 3σ");
    }
    return state instanceof CheckState.Frozen
        ? Optional.of("frozen: never changes")
        : Optional.empty();
  }

  private static Level flat(String name, Axis axis, Stroke stroke, double value, int count) {
    return new Level(name + " " + number(value, axis), stroke, Collections.nCopies(count, value));
  }

  private static Level level(
      String name,
      Axis axis,
      Stroke stroke,
      List<ControlChart.Point> points,
      Function<ControlChart.Point, Double> value) {
    List<Double> values = points.stream().map(value).toList();
    return new Level(name + " " + number(values.get(values.size() - 1), axis), stroke, values);
  }

  private static String described(List<Level> levels) {
    return "Levels: " + String.join("; ", levels.stream().map(Level::name).toList()) + ".";
  }

  /** With one decimal more than the ticks of the axis have, and a minus sign of print. */
  private static String number(double value, Axis axis) {
    int decimals = (int) Math.max(0, 1 - Math.floor(Math.log10(axis.step()) + 1e-9));
    return Numbers.fixed(value, decimals).replace('-', '−');
  }

  /**
   * Causes by how often they were seen, with a line through the sums.
   *
   * @param pareto at least one cause
   * @param name of a cause, for people
   */
  public static <C> Drawing pareto(Subject subject, Pareto<C> pareto, Function<C, String> name) {
    List<BarPlot.Row> rows = new ArrayList<>();
    int sum = 0;
    for (Pareto.Row<C> row : pareto.rows()) {
      sum += row.count();
      String words =
          row.count() + ", " + percent(row.share()) + "; sum " + percent(row.cumulative());
      rows.add(
          new BarPlot.Row(
              name.apply(row.cause()),
              List.of(new BarPlot.Bar(row.count(), words)),
              OptionalDouble.of(sum)));
    }
    double step = Math.max(1.0, Axis.covering("", DoubleStream.of(0.0, sum), 10).step());
    Pareto.Row<C> first = pareto.rows().get(0);
    return new BarPlot(
            subject.caption(
                "Most frequent: "
                    + name.apply(first.cause())
                    + ", "
                    + first.count()
                    + " of "
                    + sum
                    + "."),
            new Axis(subject.quantity(), 0.0, sum * 1.03, step),
            List.of(new BarPlot.Series("seen", Shape.Fill.HATCHED)),
            rows,
            "this one and those above it, together")
        .drawing();
  }

  private static String percent(double share) {
    return Numbers.fixed(100.0 * share, 0) + " %";
  }

  /**
   * The components of a gauge study as shares of the whole, and of a tolerance if there is one.
   *
   * @param tolerance the upper limit less the lower one, in the unit of the readings
   */
  public static Drawing gauge(Subject subject, GaugeStudy study, OptionalDouble tolerance) {
    List<BarPlot.Series> series = new ArrayList<>();
    series.add(new BarPlot.Series("share of all variation", Shape.Fill.HATCHED));
    if (tolerance.isPresent()) {
      series.add(new BarPlot.Series("6σ as a share of the tolerance", Shape.Fill.GREY));
    }
    List<BarPlot.Row> rows = new ArrayList<>();
    for (GaugeStudy.Part part : study.parts()) {
      if (part.effect() != Effect.UNIT) {
        rows.add(row(study, tolerance, named(part), study.deviation(part.effect())));
      }
    }
    rows.add(row(study, tolerance, "gauge with operators (GRR)", study.gauge()));
    study.parts().stream()
        .filter(part -> part.effect() == Effect.UNIT)
        .forEach(p -> rows.add(row(study, tolerance, named(p), study.deviation(Effect.UNIT))));
    double longest =
        rows.stream()
            .flatMap(r -> r.bars().stream())
            .mapToDouble(BarPlot.Bar::value)
            .max()
            .orElse(0);
    return new BarPlot(
            subject.caption(
                "Gauge with operators: "
                    + Numbers.fixed(study.percentOfStudy(study.gauge()), 1)
                    + " % of all variation. Distinct categories: "
                    + study.distinctCategories()
                    + "."),
            Axis.covering(subject.quantity(), DoubleStream.of(0.0, 100.0, longest), 10),
            series,
            rows,
            "")
        .drawing();
  }

  private static BarPlot.Row row(
      GaugeStudy study, OptionalDouble tolerance, String name, double deviation) {
    List<BarPlot.Bar> bars = new ArrayList<>();
    bars.add(bar(study.percentOfStudy(deviation)));
    tolerance.ifPresent(width -> bars.add(bar(study.percentOfTolerance(deviation, width))));
    return new BarPlot.Row(name, bars, OptionalDouble.empty());
  }

  private static BarPlot.Bar bar(double percent) {
    return new BarPlot.Bar(percent, Numbers.fixed(percent, 1) + " %");
  }

  private static String named(GaugeStudy.Part part) {
    String name =
        switch (part.effect()) {
          case REPEATABILITY -> "repeatability (EV)";
          case OPERATOR -> "operators (AV)";
          case INTERACTION -> "operators by units";
          case UNIT -> "units (PV)";
        };
    return part.setToZero() ? name + ", not seen" : name;
  }

  /**
   * A trace that is compared.
   *
   * @param name what it is
   * @param runs its unbroken pieces, s from its own beginning
   */
  public record Compared(String name, List<List<Sample>> runs) {}

  /** Two traces over one time axis; the first solid, the second dashed. */
  public static Drawing traces(Subject subject, Compared first, Compared second) {
    List<Sample> all =
        Stream.of(first, second).flatMap(c -> c.runs().stream()).flatMap(List::stream).toList();
    double end = all.stream().mapToDouble(Sample::seconds).max().orElse(1.0);
    return new PairPlot(
            subject.caption("Solid: " + first.name() + "; dashed: " + second.name() + "."),
            Axis.exactly("time, s", 0.0, Math.max(end, 1e-3), 10),
            Axis.around(subject.quantity(), all.stream().mapToDouble(Sample::value), TICKS),
            List.of(
                new PairPlot.Compared(first.name() + ", solid", Stroke.POSITION, first.runs()),
                new PairPlot.Compared(second.name() + ", dashed", Stroke.SETPOINT, second.runs())))
        .drawing();
  }

  /**
   * Travel errors of one run.
   *
   * @param name what it is
   * @param up approached from below, by rising setpoint
   * @param down approached from above
   */
  public record Errors(String name, List<Branch.Point> up, List<Branch.Point> down) {}

  /** Travel errors of two runs over the setpoint; the first filled, the second hollow. */
  public static Drawing errors(Subject subject, Errors first, Errors second, Optional<Band> band) {
    List<Branch> branches =
        List.of(
            branch(first.name() + " up", Marker.TRIANGLE_UP, Stroke.UP, first.up()),
            branch(first.name() + " down", Marker.TRIANGLE_DOWN, Stroke.DOWN, first.down()),
            branch(second.name() + " up", Marker.HOLLOW_TRIANGLE_UP, Stroke.STEM_UP, second.up()),
            branch(
                second.name() + " down",
                Marker.HOLLOW_TRIANGLE_DOWN,
                Stroke.STEM_DOWN,
                second.down()));
    DoubleStream ends =
        branches.stream()
            .flatMap(Branch::points)
            .flatMapToDouble(p -> DoubleStream.of(p.y() - p.bar(), p.y() + p.bar()));
    DoubleStream limits =
        band.stream()
            .flatMapToDouble(
                b -> Stream.of(b.low(), b.high()).flatMapToDouble(OptionalDouble::stream));
    return new XyPlot(
            subject.caption("Filled: " + first.name() + "; hollow: " + second.name() + "."),
            Axis.travel(
                "setpoint, % of travel",
                branches.stream().flatMap(Branch::points).mapToDouble(Branch.Point::x), 11),
            Axis.covering(
                subject.quantity(),
                DoubleStream.concat(
                    ends, DoubleStream.concat(limits, DoubleStream.of(0.0)).map(v -> 1.1 * v)),
                8),
            branches,
            false,
            band)
        .drawing();
  }

  private static Branch branch(
      String name, Marker marker, Stroke stroke, List<Branch.Point> points) {
    return new Branch(name, marker, stroke, List.of(points));
  }
}
