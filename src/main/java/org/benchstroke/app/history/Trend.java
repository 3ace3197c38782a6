package org.benchstroke.app.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.ChartAnswer;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.Charts;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.ControlChart.Signal;
import org.benchstroke.core.statistics.NoAnswer;
import org.benchstroke.core.statistics.Weighting;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.plot.Drawing;

/**
 * The three charts of a series. Immutable.
 *
 * @param series the values
 * @param individuals of the values themselves
 * @param ranges of the distance of each from the one before it
 * @param averages of their exponentially weighted moving average
 */
public record Trend(
    Series series, ChartAnswer individuals, ChartAnswer ranges, ChartAnswer averages) {
  /** As many as limits are usually taken from (common practice, no source). */
  private static final int USUAL_BASELINE = 25;

  /** Of false alarms one in 500 values (docs/explanation/charts.md). */
  private static final Weighting WEIGHTING = new Weighting(0.25, 2.998, Weighting.Limits.EXACT);

  /**
   * Refuses what no chart can be made of.
   *
   * @param baseline how many first values limits are to be taken from
   * @throws WrongRequest if neither unit nor type nor bench was chosen, or the baseline is too
   *     short
   */
  public static void require(ChosenRuns runs, OptionalInt baseline, Naming naming)
      throws WrongRequest {
    if (runs.serial().isEmpty() && runs.type().isEmpty() && runs.bench().isEmpty()) {
      throw new WrongRequest(
          "trend: values of all units together have no trend; add "
              + naming.of("serial")
              + ", "
              + naming.of("type")
              + " or "
              + naming.of("bench"));
    }
    if (baseline.isPresent() && baseline.getAsInt() < Baseline.FEWEST) {
      throw new WrongRequest(
          naming.of("baseline") + ": found " + baseline.getAsInt() + ", allowed is 10 or more");
    }
  }

  /**
   * Of a series.
   *
   * @param baseline how many first values the limits are from, 10 or more; else 25, or all if there
   *     are fewer
   */
  public static Trend of(Series series, OptionalInt baseline) {
    double[] values = series.numbers();
    Baseline from =
        new Baseline.First(
            baseline.orElse(Math.max(Baseline.FEWEST, Math.min(USUAL_BASELINE, values.length))));
    return new Trend(
        series,
        Charts.individuals(values, from, ChartRule.ZONES),
        Charts.movingRange(values, from),
        Charts.ewma(values, from, WEIGHTING));
  }

  /** Those that could be made. */
  public List<ControlChart> charts() {
    List<ControlChart> charts = new ArrayList<>();
    for (ChartAnswer answer : List.of(individuals, ranges, averages)) {
      if (answer instanceof ControlChart chart) {
        charts.add(chart);
      }
    }
    return charts;
  }

  /** Why there are none; empty if there are. */
  public Optional<NoAnswer> lack() {
    return individuals instanceof NoAnswer why ? Optional.of(why) : Optional.empty();
  }

  /** "SIMULATED: " where the runs are. */
  private static String marks(boolean simulated) {
    return simulated ? "SIMULATED: " : "";
  }

  /** A picture for each chart. */
  public List<Drawing> drawings(boolean simulated) {
    List<Drawing> drawings = new ArrayList<>();
    for (ControlChart chart : charts()) {
      String id = "trend-" + chart.kind().name().toLowerCase(Locale.ROOT).replace('_', '-');
      String title = marks(simulated) + series.title() + ": " + name(chart.kind());
      drawings.add(
          HistoryPlots.control(new HistoryPlots.Subject(id, title, quantity(chart)), chart));
    }
    return drawings;
  }

  private String quantity(ControlChart chart) {
    String unit = ", " + series.kind().unit();
    return switch (chart.kind()) {
      case MOVING_RANGE -> "moving range" + unit;
      case EWMA -> "EWMA" + unit;
      default -> series.quantity();
    };
  }

  /** What a chart is of. */
  public static String name(ControlChart.Kind kind) {
    return switch (kind) {
      case INDIVIDUALS -> "individual values";
      case MOVING_RANGE -> "moving ranges";
      case EWMA -> "EWMA";
      case MEANS -> "means";
      case RANGES -> "ranges";
    };
  }

  /** The distance of a value from the one before it; empty without a chart or for the first. */
  public OptionalDouble range(int index) {
    return point(ranges, index);
  }

  /** The moving average at a value; empty without a chart. */
  public OptionalDouble average(int index) {
    return point(averages, index);
  }

  private static OptionalDouble point(ChartAnswer answer, int index) {
    return answer instanceof ControlChart chart
        ? chart.points().stream()
            .filter(p -> p.index() == index)
            .mapToDouble(ControlChart.Point::value)
            .findFirst()
        : OptionalDouble.empty();
  }

  /** The rules that each value meets in any chart, in words, by the index of the value. */
  public Map<Integer, List<String>> signals() {
    Map<Integer, List<String>> all = new TreeMap<>();
    for (ControlChart chart : charts()) {
      for (Signal signal : chart.signals()) {
        all.computeIfAbsent(signal.index(), i -> new ArrayList<>()).add(rule(chart, signal));
      }
    }
    return all;
  }

  /** Each rule that was met, with the numbers of its values, from 1. */
  public Map<String, List<Integer>> rules() {
    Map<String, List<Integer>> met = new LinkedHashMap<>();
    for (ControlChart chart : charts()) {
      for (Signal signal : chart.signals()) {
        met.computeIfAbsent(rule(chart, signal), r -> new ArrayList<>()).add(signal.index() + 1);
      }
    }
    return met;
  }

  private static String rule(ControlChart chart, Signal signal) {
    String of =
        switch (chart.kind()) {
          case MOVING_RANGE -> "range ";
          case EWMA -> "EWMA ";
          default -> "";
        };
    return of + HistoryPlots.words(signal.rule());
  }

  /** Where the limits are from, in a sentence; empty if there are none. */
  public Optional<String> baselineWords() {
    return charts().stream()
        .findFirst()
        .map(
            first ->
                "Limits from the first "
                    + first.points().stream().filter(ControlChart.Point::baseline).count()
                    + " of "
                    + first.points().size()
                    + " values, in "
                    + series.kind().unit()
                    + ".");
  }

  /** A value for people. */
  public static String figure(double value) {
    return Numbers.minusSigns(Numbers.significant(value, 4));
  }
}
