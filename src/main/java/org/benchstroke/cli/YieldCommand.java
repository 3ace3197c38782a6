package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ShopHistory;
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
  private static final double COVERAGE = 0.95;
  private static final int MONTH = 7;

  /** By what jobs are told apart. */
  enum By {
    TYPE,
    MONTH,
    BENCH,
    OPERATOR;

    private String of(Heading run) {
      return switch (this) {
        case TYPE -> run.facts().unitType();
        case MONTH -> run.facts().begun().toString().substring(0, YieldCommand.MONTH);
        case BENCH -> run.facts().bench();
        case OPERATOR -> run.labels().operator();
      };
    }

    private String key() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  @Option(
      names = "--by",
      paramLabel = "WHAT",
      defaultValue = "TYPE",
      description = "A line for each type, month, bench or operator (default: type).")
  private By by;

  @Mixin private ShopRuns runs;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws FileMistakes, WrongRequest, ArchiveFault {
    List<Heading> found;
    try (Archive archive = runs.open()) {
      found = new ShopHistory(archive, runs.filter(Optional.empty()), runs.simulated()).asFound();
    }
    Map<String, List<Heading>> groups = new TreeMap<>();
    found.forEach(run -> groups.computeIfAbsent(by.of(run), g -> new ArrayList<>()).add(run));
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(groups, found)));
    } else {
      tell(out, groups, found);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private static Optional<Yield> yieldOf(List<Heading> runs) {
    int passed = (int) runs.stream().filter(run -> run.result().passed()).count();
    return Yield.of(passed, runs.size(), COVERAGE) instanceof Yield yield
        ? Optional.of(yield)
        : Optional.empty();
  }

  private void tell(Shown out, Map<String, List<Heading>> groups, List<Heading> all) {
    out.println("First-pass yield of " + runs.words(Optional.empty()));
    List<List<String>> rows = new ArrayList<>();
    groups.forEach((name, group) -> yieldOf(group).ifPresent(y -> rows.add(row(name, y))));
    if (groups.size() > 1) {
      yieldOf(all).ifPresent(y -> rows.add(row("all", y)));
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

  private Map<String, Object> fields(Map<String, List<Heading>> groups, List<Heading> all) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("by", by.key());
    told.put("simulated", runs.simulated());
    told.put("coverage", COVERAGE);
    List<Map<String, Object>> lines = new ArrayList<>();
    groups.forEach((name, group) -> yieldOf(group).ifPresent(y -> lines.add(fields(name, y))));
    told.put("lines", lines);
    yieldOf(all).ifPresent(y -> told.put("all", fields("all", y)));
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
