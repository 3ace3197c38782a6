package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.cli.MeasureChoice.Series;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.ChartAnswer;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.Charts;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.ControlChart.Signal;
import org.benchstroke.core.statistics.NoAnswer;
import org.benchstroke.core.statistics.Weighting;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.Json;
import org.benchstroke.papers.plot.Drawing;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** A measure over time. */
@Command(
    name = "trend",
    description = {
      Commands.TREND,
      "Limits come from the first values, and all others are compared with them. Of a unit, a unit"
          + " type or a bench, from the archive."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke trend --type QT-15 --measure dead_band_pct \\",
      "      --place \"point 50\" --truth stem --svg trend.svg"
    })
final class TrendCommand implements Callable<Integer> {
  /** As many as limits are usually taken from (common practice, no source). */
  private static final int USUAL_BASELINE = 25;

  /** Of false alarms one in 500 values (docs/explanation/charts.md). */
  private static final Weighting WEIGHTING = new Weighting(0.25, 2.998, Weighting.Limits.EXACT);

  @Option(names = "--serial", paramLabel = "TEXT", description = "Only of this unit.")
  private Optional<String> serial = Optional.empty();

  @Mixin private MeasureChoice measure;

  @Mixin private ShopRuns runs;

  @Option(
      names = "--baseline",
      paramLabel = "N",
      description =
          "Takes the limits from the first N values, at least 10 (default: 25, or all if there are"
              + " fewer).")
  private Integer baseline;

  @Option(
      names = "--most",
      paramLabel = "N",
      defaultValue = "30",
      description = "How many of the newest values are listed (default: ${DEFAULT-VALUE}).")
  private int most;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private PictureOption picture;

  @Spec private CommandSpec spec;

  /** The three charts of a series. */
  private record Trend(
      Series series, ChartAnswer individuals, ChartAnswer ranges, ChartAnswer averages) {
    List<ControlChart> charts() {
      List<ControlChart> charts = new ArrayList<>();
      for (ChartAnswer answer : List.of(individuals, ranges, averages)) {
        if (answer instanceof ControlChart chart) {
          charts.add(chart);
        }
      }
      return charts;
    }
  }

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    requireChoice();
    Optional<OutputFiles.Place> place = picture.place();
    Trend trend;
    try (Archive archive = runs.open()) {
      trend = of(measure.of(new ShopHistory(archive, runs.filter(serial), runs.simulated())));
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(trend)));
    } else {
      tell(out, trend);
    }
    out.flush();
    PictureOption.draw(place, drawings(trend));
    return ExitCode.PASSED;
  }

  private void requireChoice() throws WrongRequest {
    measure.kind();
    if (serial.isEmpty() && !runs.choosesTypeOrBench()) {
      throw new WrongRequest(
          "trend: values of all units together have no trend; add --serial, --type or --bench");
    }
    if (baseline != null && baseline < Baseline.FEWEST) {
      throw new WrongRequest("--baseline: found " + baseline + ", allowed is 10 or more");
    }
    if (most < 1) {
      throw new WrongRequest("--most: found " + most + ", allowed is 1 or more");
    }
  }

  private Trend of(Series series) {
    double[] values = series.numbers();
    int first =
        baseline != null
            ? baseline
            : Math.max(Baseline.FEWEST, Math.min(USUAL_BASELINE, values.length));
    Baseline from = new Baseline.First(first);
    return new Trend(
        series,
        Charts.individuals(values, from, ChartRule.ZONES),
        Charts.movingRange(values, from),
        Charts.ewma(values, from, WEIGHTING));
  }

  private List<Drawing> drawings(Trend trend) {
    String of = (runs.simulated() ? "SIMULATED: " : "") + trend.series().title();
    List<Drawing> drawings = new ArrayList<>();
    for (ControlChart chart : trend.charts()) {
      String id = "trend-" + chart.kind().name().toLowerCase(Locale.ROOT).replace('_', '-');
      String title = of + ": " + name(chart.kind());
      drawings.add(
          HistoryPlots.control(
              new HistoryPlots.Subject(id, title, quantity(trend.series(), chart)), chart));
    }
    return drawings;
  }

  private static String quantity(Series series, ControlChart chart) {
    String unit = ", " + series.kind().unit();
    return switch (chart.kind()) {
      case MOVING_RANGE -> "moving range" + unit;
      case EWMA -> "EWMA" + unit;
      default -> series.quantity();
    };
  }

  private static String name(ControlChart.Kind kind) {
    return switch (kind) {
      case INDIVIDUALS -> "individual values";
      case MOVING_RANGE -> "moving ranges";
      case EWMA -> "EWMA";
      case MEANS -> "means";
      case RANGES -> "ranges";
    };
  }

  private void tell(Shown out, Trend trend) {
    out.println("Trend of " + trend.series().title());
    out.println("Of " + runs.words(serial));
    trend.series().leftOutWords().ifPresent(out::println);
    List<Measured> values = trend.series().values();
    Map<Integer, String> signals = signalWords(trend);
    int from = Math.max(0, values.size() - most);
    List<List<String>> rows = new ArrayList<>();
    for (int i = from; i < values.size(); i++) {
      rows.add(row(trend, i, signals.getOrDefault(i, "")));
    }
    out.println();
    List<String> heads =
        List.of(">no.", "begun (UTC)", "serial", ">value", ">range", ">EWMA", "signal");
    new TextTable(heads, rows).print(out);
    if (from > 0) {
      out.println("The first " + from + " are not listed; --most " + values.size() + " lists all.");
    }
    out.println();
    limits(out, trend);
  }

  private static List<String> row(Trend trend, int index, String signals) {
    Measured value = trend.series().values().get(index);
    return List.of(
        String.valueOf(index + 1),
        value.run().facts().begun().toString().substring(0, 10),
        value.run().labels().serial(),
        figure(value.measure().value().orElseThrow()),
        pointOf(trend.ranges(), index),
        pointOf(trend.averages(), index),
        signals);
  }

  private static String pointOf(ChartAnswer answer, int index) {
    return answer instanceof ControlChart chart
        ? chart.points().stream()
            .filter(p -> p.index() == index)
            .map(p -> figure(p.value()))
            .findFirst()
            .orElse("–")
        : "–";
  }

  private static String figure(double value) {
    return Numbers.minusSigns(Numbers.significant(value, 4));
  }

  /** The first rule that a value meets, and how many more. */
  private static Map<Integer, String> signalWords(Trend trend) {
    Map<Integer, List<String>> all = new TreeMap<>();
    for (ControlChart chart : trend.charts()) {
      for (Signal signal : chart.signals()) {
        all.computeIfAbsent(signal.index(), i -> new ArrayList<>()).add(rule(chart, signal));
      }
    }
    return all.entrySet().stream()
        .collect(Collectors.toMap(Map.Entry::getKey, e -> firstOf(e.getValue())));
  }

  private static String firstOf(List<String> rules) {
    return rules.get(0) + (rules.size() == 1 ? "" : ", " + (rules.size() - 1) + " more");
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

  /** Each rule that was met, with the numbers of its values. */
  private static void signals(Shown out, Trend trend) {
    Map<String, List<String>> met = new LinkedHashMap<>();
    for (ControlChart chart : trend.charts()) {
      for (Signal signal : chart.signals()) {
        met.computeIfAbsent(rule(chart, signal), r -> new ArrayList<>())
            .add(String.valueOf(signal.index() + 1));
      }
    }
    met.forEach(
        (rule, numbers) ->
            out.println(
                Wrapped.text(
                    "Signals, " + rule + ": " + String.join(", ", numbers), TextTable.WIDTH, 2)));
    if (met.isEmpty()) {
      out.println("No rule is met.");
    }
  }

  private static void limits(Shown out, Trend trend) {
    if (trend.individuals() instanceof NoAnswer why) {
      out.println(Lacking.words("values", why));
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    for (ControlChart chart : trend.charts()) {
      ControlChart.Point last = chart.points().get(chart.points().size() - 1);
      rows.add(
          List.of(
              name(chart.kind()),
              figure(last.low()),
              figure(chart.centre()),
              figure(last.high()),
              String.valueOf(chart.signals().stream().map(Signal::index).distinct().count())));
    }
    new TextTable(List.of("chart", ">lower limit", ">centre", ">upper limit", ">signals"), rows)
        .print(out);
    ControlChart first = trend.charts().get(0);
    long from = first.points().stream().filter(ControlChart.Point::baseline).count();
    out.println(
        "Limits from the first "
            + from
            + " of "
            + first.points().size()
            + " values, in "
            + trend.series().kind().unit()
            + ".");
    signals(out, trend);
  }

  private Map<String, Object> fields(Trend trend) {
    Map<String, Object> told = new LinkedHashMap<>();
    trend.series().put(told);
    told.put("simulated", runs.simulated());
    List<Map<String, Object>> values = new ArrayList<>();
    for (Measured each : trend.series().values()) {
      Map<String, Object> value = new LinkedHashMap<>();
      value.put("begun_utc", each.run().facts().begun().toString());
      value.put("serial", each.run().labels().serial());
      value.put("value", each.measure().value().orElseThrow());
      each.measure().half().ifPresent(u -> value.put("u", u));
      value.put("sha256", each.run().file().sha256());
      values.add(value);
    }
    told.put("values", values);
    if (trend.individuals() instanceof NoAnswer why) {
      told.put("no_answer", Lacking.fields(why));
    }
    told.put("charts", trend.charts().stream().map(TrendCommand::fields).toList());
    return told;
  }

  private static Map<String, Object> fields(ControlChart chart) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("chart", chart.kind().name().toLowerCase(Locale.ROOT));
    told.put("centre", chart.centre());
    told.put("sigma", chart.sigma());
    told.put("baseline", chart.points().stream().filter(ControlChart.Point::baseline).count());
    told.put("points", chart.points());
    told.put("signals", chart.signals().stream().map(TrendCommand::fields).toList());
    return told;
  }

  private static Map<String, Object> fields(Signal signal) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("rule", signal.rule().id());
    told.put("index", signal.index());
    told.put("way", signal.way().name().toLowerCase(Locale.ROOT));
    return told;
  }
}
