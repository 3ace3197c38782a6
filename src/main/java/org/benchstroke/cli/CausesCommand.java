package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.FaultCounts;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
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
    FaultCounts.Of of = measures ? FaultCounts.Of.MEASURES : FaultCounts.Of.CAUSES;
    FaultCounts counts;
    try (Archive archive = runs.open()) {
      counts = FaultCounts.of(runs.history(archive), of);
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(counts)));
    } else {
      tell(out, counts);
    }
    out.flush();
    PictureOption.draw(place, counts.drawing(runs.chosen()).stream().toList());
    return ExitCode.PASSED;
  }

  private void tell(Shown out, FaultCounts counts) {
    out.println(
        counts.of().title() + " of " + counts.jobs() + " jobs as found; " + runs.chosen().words());
    List<List<String>> rows = new ArrayList<>();
    for (Pareto.Row<String> row : counts.pareto().rows()) {
      rows.add(
          List.of(
              counts.name(row.cause()),
              String.valueOf(row.count()),
              Numbers.fixed(100.0 * row.share(), 1) + " %",
              Numbers.fixed(100.0 * row.cumulative(), 1) + " %"));
    }
    new TextTable(List.of(counts.of().one(), ">units", ">share", ">sum"), rows).print(out);
    if (rows.isEmpty()) {
      out.println("None was seen.");
    }
  }

  private Map<String, Object> fields(FaultCounts counts) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("of", counts.of().key());
    told.put("simulated", runs.simulated());
    told.put("jobs", counts.jobs());
    List<Map<String, Object>> rows = new ArrayList<>();
    for (Pareto.Row<String> row : counts.pareto().rows()) {
      Map<String, Object> fields = new LinkedHashMap<>();
      fields.put(measures ? "measure" : "cause", row.cause());
      fields.put("title", counts.name(row.cause()));
      fields.put("count", row.count());
      fields.put("share", row.share());
      fields.put("cumulative", row.cumulative());
      rows.add(fields);
    }
    told.put("rows", rows);
    return told;
  }
}
