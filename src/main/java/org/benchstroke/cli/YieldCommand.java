package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.Yields;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Yield;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** First-pass yield. */
@Command(
    name = "yield",
    description = {
      Commands.YIELD,
      "With the interval that holds the long-run share in 95 of 100 cases (Wilson). A conditional"
          + " pass is no pass."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example:", "  benchstroke yield --by month --type QT-15 --since 2026-01-01"})
final class YieldCommand implements Callable<Integer> {
  @Option(
      names = "--by",
      paramLabel = "WHAT",
      defaultValue = "TYPE",
      description = "A line for each type, month, bench or operator (default: type).")
  private Yields.By by;

  @Mixin private ShopRuns runs;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    Yields yields;
    try (Archive archive = runs.open()) {
      yields = Yields.of(runs.history(archive), by);
    }
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(yields)));
    } else {
      tell(out, yields);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private void tell(Shown out, Yields yields) {
    out.println("First-pass yield of " + runs.chosen().words());
    List<List<String>> rows = new ArrayList<>();
    yields.lines().forEach(line -> rows.add(row(line.name(), line.yield())));
    if (rows.size() > 1) {
      yields.all().ifPresent(all -> rows.add(row("all", all)));
    }
    List<String> heads = List.of(by.key(), ">jobs", ">passed", ">yield", "95 % interval");
    new TextTable(heads, rows).print(out);
    if (rows.isEmpty()) {
      out.println("Nothing in the archive is like that.");
    }
  }

  private static List<String> row(String name, Yield yield) {
    return List.of(
        name,
        String.valueOf(yield.tested()),
        String.valueOf(yield.passed()),
        percent(yield.share()) + " %",
        percent(yield.low()) + " to " + percent(yield.high()) + " %");
  }

  private static String percent(double share) {
    return Numbers.fixed(100.0 * share, 1);
  }

  private Map<String, Object> fields(Yields yields) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("by", by.key());
    told.put("simulated", runs.simulated());
    told.put("coverage", Yields.COVERAGE);
    told.put(
        "lines", yields.lines().stream().map(line -> fields(line.name(), line.yield())).toList());
    yields.all().ifPresent(all -> told.put("all", fields("all", all)));
    return told;
  }

  private Map<String, Object> fields(String name, Yield yield) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put(by.key(), name);
    fields.put("jobs", yield.tested());
    fields.put("first_passes", yield.passed());
    fields.put("yield", yield.share());
    fields.put("low", yield.low());
    fields.put("high", yield.high());
    return fields;
  }
}
