package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.ChosenRuns;
import org.benchstroke.app.history.Lacking;
import org.benchstroke.app.history.MeasureChoice;
import org.benchstroke.app.history.Naming;
import org.benchstroke.app.history.Trend;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.ControlChart.Signal;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
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
  @Option(names = "--serial", paramLabel = "TEXT", description = "Only of this unit.")
  private Optional<String> serial = Optional.empty();

  @Mixin private MeasureOptions measure;

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

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    MeasureChoice choice = measure.chosen();
    choice.kind();
    ChosenRuns chosen = runs.chosen(serial);
    OptionalInt first = baseline == null ? OptionalInt.empty() : OptionalInt.of(baseline);
    Trend.require(chosen, first, Naming.OPTIONS);
    if (most < 1) {
      throw new WrongRequest("--most: found " + most + ", allowed is 1 or more");
    }
    Optional<OutputFiles.Place> place = picture.place();
    Trend trend;
    try (Archive archive = runs.open()) {
      trend = Trend.of(choice.of(chosen.of(archive, Naming.OPTIONS)), first);
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(trend)));
    } else {
      tell(out, trend);
    }
    out.flush();
    PictureOption.draw(place, trend.drawings(runs.simulated()));
    return ExitCode.PASSED;
  }

  private void tell(Shown out, Trend trend) {
    out.println("Trend of " + trend.series().title());
    out.println("Of " + runs.chosen(serial).words());
    trend.series().leftOutWords().ifPresent(out::println);
    List<Measured> values = trend.series().values();
    Map<Integer, List<String>> signals = trend.signals();
    int from = Math.max(0, values.size() - most);
    List<List<String>> rows = new ArrayList<>();
    for (int i = from; i < values.size(); i++) {
      rows.add(row(trend, i, firstOf(signals.getOrDefault(i, List.of()))));
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
        Trend.figure(value.measure().value().orElseThrow()),
        figure(trend.range(index)),
        figure(trend.average(index)),
        signals);
  }

  private static String figure(OptionalDouble value) {
    return value.isPresent() ? Trend.figure(value.getAsDouble()) : "–";
  }

  /** The first rule that a value meets, and how many more. */
  private static String firstOf(List<String> rules) {
    if (rules.isEmpty()) {
      return "";
    }
    return rules.get(0) + (rules.size() == 1 ? "" : ", " + (rules.size() - 1) + " more");
  }

  /** Each rule that was met, with the numbers of its values. */
  private static void signals(Shown out, Trend trend) {
    Map<String, List<Integer>> met = trend.rules();
    met.forEach(
        (rule, numbers) ->
            out.println(
                Wrapped.text(
                    "Signals, "
                        + rule
                        + ": "
                        + numbers.stream().map(String::valueOf).collect(Collectors.joining(", ")),
                    TextTable.WIDTH,
                    2)));
    if (met.isEmpty()) {
      out.println("No rule is met.");
    }
  }

  private static void limits(Shown out, Trend trend) {
    if (trend.lack().isPresent()) {
      out.println(Lacking.words("values", trend.lack().get()));
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    for (ControlChart chart : trend.charts()) {
      ControlChart.Point last = chart.points().get(chart.points().size() - 1);
      rows.add(
          List.of(
              Trend.name(chart.kind()),
              Trend.figure(last.low()),
              Trend.figure(chart.centre()),
              Trend.figure(last.high()),
              String.valueOf(chart.signals().stream().map(Signal::index).distinct().count())));
    }
    new TextTable(List.of("chart", ">lower limit", ">centre", ">upper limit", ">signals"), rows)
        .print(out);
    trend.baselineWords().ifPresent(out::println);
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
    trend.lack().ifPresent(why -> told.put("no_answer", Lacking.fields(why)));
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
