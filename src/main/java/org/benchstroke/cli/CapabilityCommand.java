package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.CapabilityStudy;
import org.benchstroke.app.history.Lacking;
import org.benchstroke.app.history.MeasureChoice;
import org.benchstroke.app.history.Naming;
import org.benchstroke.app.history.Series;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Capability;
import org.benchstroke.core.statistics.Capability.Index;
import org.benchstroke.core.statistics.NoAnswer;
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
  @Mixin private MeasureOptions measure;

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
    MeasureChoice choice = measure.chosen();
    choice.kind();
    CapabilityStudy.require(runs.chosen(), Naming.OPTIONS);
    Series series;
    try (Archive archive = runs.open()) {
      ShopHistory history = runs.history(archive);
      series = choice.of(history);
      series = asFound ? series.asFound(history) : series;
    }
    CapabilityStudy study = CapabilityStudy.of(series, maybe(low), maybe(high), Naming.OPTIONS);
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(study)));
    } else {
      tell(out, study);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private static OptionalDouble maybe(Double number) {
    return number == null ? OptionalDouble.empty() : OptionalDouble.of(number);
  }

  private void tell(Shown out, CapabilityStudy study) {
    Series series = study.series();
    String unit = " " + series.kind().unit();
    out.println("Capability: " + series.title());
    out.println("Of " + runs.chosen().words());
    series.leftOutWords().ifPresent(out::println);
    out.println("Limits: " + study.limits() + unit);
    if (study.answer() instanceof NoAnswer why) {
      out.println(Lacking.words("values", why));
      return;
    }
    Capability found = (Capability) study.answer();
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
    CapabilityStudy.indices(found).forEach((name, index) -> rows.add(row(name, index)));
    new TextTable(List.of("index", ">value", "95 % interval"), rows).print(out);
    out.println();
    out.println(
        "Normality (Anderson and Darling): A² "
            + figure(found.normality().statistic())
            + ", p "
            + figure(found.normality().p())
            + ".");
    out.println(Wrapped.text(CapabilityStudy.advice(found), TextTable.WIDTH, 0));
    if (study.signals() > 0) {
      out.println(Wrapped.text(study.notInControl(), TextTable.WIDTH, 0));
    }
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

  private Map<String, Object> fields(CapabilityStudy study) {
    Map<String, Object> told = new LinkedHashMap<>();
    study.series().put(told);
    told.put("simulated", runs.simulated());
    study.tolerance().low().ifPresent(limit -> told.put("limit_low", limit));
    study.tolerance().high().ifPresent(limit -> told.put("limit_high", limit));
    if (study.answer() instanceof NoAnswer why) {
      told.put("no_answer", Lacking.fields(why));
      return told;
    }
    Capability found = (Capability) study.answer();
    told.put("count", found.count());
    told.put("mean", found.mean());
    told.put("sigma_within", found.within());
    told.put("sigma_overall", found.overall());
    told.put("coverage", CapabilityStudy.COVERAGE);
    CapabilityStudy.indices(found)
        .forEach((name, index) -> told.put(name.toLowerCase(Locale.ROOT), index));
    told.put("normality", found.normality());
    told.put("basis", found.basis().name().toLowerCase(Locale.ROOT));
    found.percentiles().ifPresent(index -> told.put("percentiles", index));
    told.put("signals", study.signals());
    return told;
  }
}
