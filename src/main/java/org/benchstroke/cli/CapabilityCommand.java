package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.cli.MeasureChoice.Series;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Baseline;
import org.benchstroke.core.statistics.Capability;
import org.benchstroke.core.statistics.Capability.Index;
import org.benchstroke.core.statistics.CapabilityAnswer;
import org.benchstroke.core.statistics.ChartRule;
import org.benchstroke.core.statistics.Charts;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.NoAnswer;
import org.benchstroke.core.statistics.Tolerance;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** How much room the limits leave. */
@Command(
    name = "capability",
    description = {
      Commands.CAPABILITY,
      "Of a unit type, from the archive. The limits are those in its runs; where they differ, state"
          + " them. Whether the values may be normal, and whether their chart is in control, is told"
          + " beside it."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke capability --type QT-15 --measure travel_error_pct \\",
      "      --place \"side 50 up\" --truth stem --as-found"
    })
final class CapabilityCommand implements Callable<Integer> {
  private static final double COVERAGE = 0.95;

  @Mixin private MeasureChoice measure;

  @Mixin private ShopRuns runs;

  @Option(
      names = "--as-found",
      description = "Only of the first whole run of each job: one value a unit.")
  private boolean asFound;

  @Option(
      names = "--low",
      paramLabel = "X",
      description = "The lower limit, in the measure's unit.")
  private Double low;

  @Option(
      names = "--high",
      paramLabel = "X",
      description = "The upper limit, in the measure's unit.")
  private Double high;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    measure.kind();
    if (!runs.choosesTypeOrBench()) {
      throw new WrongRequest(
          "capability: units of all types together have none; add --type (or --bench)");
    }
    Series series;
    try (Archive archive = runs.open()) {
      ShopHistory history =
          new ShopHistory(archive, runs.filter(Optional.empty()), runs.simulated());
      series = measure.of(history);
      series = asFound ? asFound(series, history) : series;
    }
    Tolerance tolerance = tolerance(series);
    CapabilityAnswer answer = Capability.ofIndividuals(series.numbers(), tolerance, COVERAGE);
    long signals = signals(series.numbers());
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(series, tolerance, answer, signals)));
    } else {
      tell(out, series, tolerance, answer, signals);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private static Series asFound(Series series, ShopHistory history) throws ArchiveFault {
    Set<String> first = new HashSet<>();
    history.asFound().forEach(run -> first.add(run.file().sha256()));
    var kept =
        series.values().stream().filter(v -> first.contains(v.run().file().sha256())).toList();
    Map<String, Long> out = new LinkedHashMap<>(series.leftOut());
    if (kept.size() < series.values().size()) {
      out.put("not as found", (long) series.values().size() - kept.size());
    }
    return new Series(series.kind(), series.place(), series.truth(), kept, out);
  }

  private Tolerance tolerance(Series series) throws WrongRequest {
    if (low != null || high != null) {
      if (low != null && high != null && low >= high) {
        throw new WrongRequest(
            "--low: found "
                + Numbers.plain(low)
                + ", allowed is less than --high, "
                + Numbers.plain(high));
      }
      return new Tolerance(maybe(low), maybe(high));
    }
    Set<List<OptionalDouble>> limits = new HashSet<>();
    for (var value : series.values()) {
      MeasureRow row = value.measure();
      limits.add(List.of(row.low(), row.high()));
    }
    if (limits.size() > 1) {
      throw new WrongRequest(
          "these runs have "
              + limits.size()
              + " different limits; state one with --low and --high");
    }
    List<OptionalDouble> one =
        limits.stream().findFirst().orElse(List.of(OptionalDouble.empty(), OptionalDouble.empty()));
    if (one.stream().allMatch(OptionalDouble::isEmpty)) {
      throw new WrongRequest("these runs have no limit on it; state one with --low and --high");
    }
    return new Tolerance(one.get(0), one.get(1));
  }

  private static OptionalDouble maybe(Double number) {
    return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
  }

  /** How many points of the chart of all values are signals. */
  private static long signals(double[] values) {
    return Charts.individuals(values, new Baseline.First(values.length), ChartRule.ZONES)
            instanceof ControlChart chart
        ? chart.signals().stream().map(ControlChart.Signal::index).distinct().count()
        : 0;
  }

  private void tell(
      Shown out, Series series, Tolerance tolerance, CapabilityAnswer answer, long signals) {
    String unit = " " + series.kind().unit();
    out.println("Capability: " + series.title());
    out.println("Of " + runs.words(Optional.empty()));
    series.leftOutWords().ifPresent(out::println);
    out.println("Limits: " + words(tolerance) + unit);
    if (answer instanceof NoAnswer why) {
      out.println(Lacking.words("values", why));
      return;
    }
    Capability found = (Capability) answer;
    out.println(
        found.count()
            + " values, mean "
            + figure(found.mean())
            + unit
            + ", σ from one to the next "
            + figure(found.within())
            + unit
            + ", σ of all "
            + figure(found.overall())
            + unit);
    out.println();
    List<List<String>> rows = new ArrayList<>();
    indices(found).forEach((name, index) -> rows.add(row(name, index)));
    new TextTable(List.of("index", ">value", "95 % interval"), rows).print(out);
    out.println();
    out.println(
        "Normality (Anderson and Darling): A² "
            + figure(found.normality().statistic())
            + ", p "
            + figure(found.normality().p())
            + ".");
    out.println(Wrapped.text(advice(found), TextTable.WIDTH, 0));
    if (signals > 0) {
      out.println(
          Wrapped.text(
              "NOT IN CONTROL: "
                  + signals
                  + " of these values are signals of their chart. A process that is not in control"
                  + " has no capability; look at the trend first.",
              TextTable.WIDTH,
              0));
    }
  }

  private static String advice(Capability found) {
    return switch (found.basis()) {
      case NORMAL -> "The values may be normal: the indices may be quoted.";
      case PERCENTILES ->
          "The values are not normal: quote only the index by percentiles, "
              + figure(found.percentiles().orElseThrow())
              + ", which is no Cpk.";
      case NONE ->
          "The values are not normal, and there are too few for percentiles ("
              + Capability.FEWEST_FOR_PERCENTILES
              + "): no index may be quoted.";
    };
  }

  private static String words(Tolerance tolerance) {
    String low = figureOr(tolerance.low());
    String high = figureOr(tolerance.high());
    if (tolerance.low().isEmpty()) {
      return "at most " + high;
    }
    return tolerance.high().isEmpty() ? "at least " + low : low + " to " + high;
  }

  private static String figureOr(OptionalDouble limit) {
    return limit.isPresent() ? Numbers.minusSigns(Numbers.plain(limit.getAsDouble())) : "";
  }

  private static Map<String, Index> indices(Capability found) {
    Map<String, Index> indices = new LinkedHashMap<>();
    found.cp().ifPresent(index -> indices.put("Cp", index));
    indices.put("Cpk", found.cpk());
    found.pp().ifPresent(index -> indices.put("Pp", index));
    indices.put("Ppk", found.ppk());
    return indices;
  }

  private static List<String> row(String name, Index index) {
    return List.of(name, two(index.value()), two(index.low()) + " to " + two(index.high()));
  }

  private static String two(double value) {
    return Numbers.minusSigns(Numbers.fixed(value, 2));
  }

  private static String figure(double value) {
    return Numbers.minusSigns(Numbers.significant(value, 3));
  }

  private Map<String, Object> fields(
      Series series, Tolerance tolerance, CapabilityAnswer answer, long signals) {
    Map<String, Object> told = new LinkedHashMap<>();
    series.put(told);
    told.put("simulated", runs.simulated());
    tolerance.low().ifPresent(limit -> told.put("limit_low", limit));
    tolerance.high().ifPresent(limit -> told.put("limit_high", limit));
    if (answer instanceof NoAnswer why) {
      told.put("no_answer", Lacking.fields(why));
      return told;
    }
    Capability found = (Capability) answer;
    told.put("count", found.count());
    told.put("mean", found.mean());
    told.put("sigma_within", found.within());
    told.put("sigma_overall", found.overall());
    told.put("coverage", COVERAGE);
    indices(found).forEach((name, index) -> told.put(name.toLowerCase(Locale.ROOT), index));
    told.put("normality", found.normality());
    told.put("basis", found.basis().name().toLowerCase(Locale.ROOT));
    found.percentiles().ifPresent(index -> told.put("percentiles", index));
    told.put("signals", signals);
    return told;
  }
}
