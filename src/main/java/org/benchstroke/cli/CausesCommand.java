package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.Json;
import org.benchstroke.unit.MeasureKind;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What was wrong, by how often. */
@Command(
    name = "causes",
    description = {
      Commands.CAUSES,
      "The likely causes that the diagnosis named, each once for a job; where it named several that"
          + " look alike, each of them counts. Or the measures that failed."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke causes --type QT-15 --since 2026-01-01 --svg causes.svg"
    })
final class CausesCommand implements Callable<Integer> {
  @Option(names = "--measures", description = "Counts measures that failed instead of causes.")
  private boolean measures;

  @Mixin private ShopRuns runs;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private PictureOption picture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    Optional<OutputFiles.Place> place = picture.place();
    Pareto<String> pareto;
    int jobs;
    try (Archive archive = runs.open()) {
      ShopHistory history =
          new ShopHistory(archive, runs.filter(Optional.empty()), runs.simulated());
      List<String> seen = measures ? history.failedAsFound() : causes(history);
      pareto = Pareto.of(seen);
      jobs = history.asFound().size();
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(pareto, jobs)));
    } else {
      tell(out, pareto, jobs);
    }
    out.flush();
    if (!pareto.rows().isEmpty()) {
      String title = what() + " as found, " + runs.words(Optional.empty());
      HistoryPlots.Subject subject = new HistoryPlots.Subject("causes", title, "units, number");
      PictureOption.draw(place, List.of(HistoryPlots.pareto(subject, pareto, this::name)));
    }
    return ExitCode.PASSED;
  }

  /** That nothing is wrong is no cause. */
  private static List<String> causes(ShopHistory history) throws ArchiveFault {
    String healthy = Cause.HEALTHY.name().toLowerCase(Locale.ROOT);
    return history.causesAsFound().stream().filter(cause -> !cause.equals(healthy)).toList();
  }

  private String what() {
    return measures ? "Measures that failed" : "Likely causes";
  }

  /** A key that this version does not know stays as it is. */
  private String name(String key) {
    if (measures) {
      return MeasureKind.ofKey(key).map(MeasureKind::title).orElse(key);
    }
    return Stream.of(Cause.values())
        .filter(cause -> cause.name().toLowerCase(Locale.ROOT).equals(key))
        .map(Cause::title)
        .findFirst()
        .orElse(key);
  }

  private void tell(Shown out, Pareto<String> pareto, int jobs) {
    out.println(what() + " of " + jobs + " jobs as found; " + runs.words(Optional.empty()));
    List<List<String>> rows = new ArrayList<>();
    for (Pareto.Row<String> row : pareto.rows()) {
      rows.add(
          List.of(
              name(row.cause()),
              String.valueOf(row.count()),
              Numbers.fixed(100.0 * row.share(), 1) + " %",
              Numbers.fixed(100.0 * row.cumulative(), 1) + " %"));
    }
    String head = measures ? "measure" : "likely cause";
    new TextTable(List.of(head, ">units", ">share", ">sum"), rows).print(out);
    if (rows.isEmpty()) {
      out.println("None was seen.");
    }
  }

  private Map<String, Object> fields(Pareto<String> pareto, int jobs) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("of", measures ? "measures" : "causes");
    told.put("simulated", runs.simulated());
    told.put("jobs", jobs);
    List<Map<String, Object>> rows = new ArrayList<>();
    for (Pareto.Row<String> row : pareto.rows()) {
      Map<String, Object> fields = new LinkedHashMap<>();
      fields.put(measures ? "measure" : "cause", row.cause());
      fields.put("title", name(row.cause()));
      fields.put("count", row.count());
      fields.put("share", row.share());
      fields.put("cumulative", row.cumulative());
      rows.add(fields);
    }
    told.put("rows", rows);
    return told;
  }
}
