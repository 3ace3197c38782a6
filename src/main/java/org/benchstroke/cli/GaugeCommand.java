package org.benchstroke.cli;

import java.nio.file.Path;
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
import java.util.stream.Collectors;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GaugePlan;
import org.benchstroke.app.GaugePlan.Turn;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.Lacking;
import org.benchstroke.app.history.Series;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun;
import org.benchstroke.archive.ReadRun;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.GaugeStudy;
import org.benchstroke.core.statistics.GaugeStudy.Effect;
import org.benchstroke.core.statistics.NoAnswer;
import org.benchstroke.core.statistics.StudyAnswer;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.HistoryPlots;
import org.benchstroke.papers.Json;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Repeatability and reproducibility. */
@Command(
    name = "gauge",
    description = {
      Commands.GAUGE,
      "Of the records that are given; without one, of the archive. Every operator tests every unit"
          + " at least twice; with --nested each has units of their own; with one operator it tells"
          + " repeats from units."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke gauge --plan study.toml --measure dead_band_pct \\",
      "      --place \"point 50\" --truth stem --svg gauge.svg"
    })
final class GaugeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECORD", arity = "0..*", description = "Records of the study.")
  private List<Path> files = List.of();

  @Mixin private MeasureOptions measure;

  @Mixin private ShopRuns runs;

  @Option(
      names = "--plan",
      paramLabel = "FILE",
      description =
          "A plan of gauge-plan: only its units and operators, and runs since it was made.")
  private Optional<Path> plan = Optional.empty();

  @Option(names = "--nested", description = "Each operator has units of their own.")
  private boolean nested;

  @Option(names = "--benches", description = "Compares benches instead of operators.")
  private boolean benches;

  @Option(
      names = "--tolerance",
      paramLabel = "X",
      description =
          "Upper limit less lower limit, in the measure's unit (default: that of the runs, if they"
              + " have both).")
  private Double tolerance;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private PictureOption picture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest, ArchiveFault, FileMistakes, RecordReader.NotARecord {
    measure.chosen().kind();
    if (tolerance != null && !(tolerance > 0.0)) {
      throw new WrongRequest(
          "--tolerance: found " + Numbers.plain(tolerance) + ", allowed is above 0");
    }
    OutputFiles outputs = picture.outputs().given("plan", plan);
    files.forEach(file -> outputs.given("record", file));
    Optional<OutputFiles.Place> place = picture.place(outputs);
    Optional<GaugePlan> planned = plan();
    List<Measured> all = planned.isPresent() ? matched(planned.get()) : values();
    Shown out = Shown.out(spec);
    if (planned.isPresent()) {
      Optional<Turn> next = planned.get().next(turns(all));
      if (next.isPresent()) {
        tellNext(out, planned.get(), all, next.get());
        return ExitCode.PASSED;
      }
    }
    Series series = measure.chosen().of(all);
    GaugeCells cells = new GaugeCells(series.values(), benches);
    StudyAnswer answer = cells.study(nested || planned.map(GaugePlan::nested).orElse(false));
    OptionalDouble width = tolerance(series);
    if (json) {
      out.print(Json.page(fields(series, cells, answer, width)));
    } else {
      tell(out, series, cells, answer, width);
    }
    out.flush();
    draw(place, series, answer, width);
    return ExitCode.PASSED;
  }

  private Optional<GaugePlan> plan() throws FileMistakes {
    if (plan.isEmpty()) {
      return Optional.empty();
    }
    GivenFiles given = new GivenFiles();
    GivenFiles.Given<GaugePlan> read = given.read(plan.get(), GaugePlan::read);
    given.finish();
    return Optional.of(read.value());
  }

  private List<Measured> values()
      throws WrongRequest, ArchiveFault, FileMistakes, RecordReader.NotARecord {
    if (files.isEmpty()) {
      try (Archive archive = runs.open()) {
        return runs.history(archive).measured(measure.chosen().kind().key());
      }
    }
    List<Measured> values = new ArrayList<>();
    for (Path file : files) {
      ArchivedRun run = ReadRun.of(file);
      if (run.facts().simulated() != runs.simulated()) {
        throw new WrongRequest(
            file
                + (runs.simulated()
                    ? ": is no simulated run; real and simulated runs don't mix"
                    : ": is a simulated run and says nothing of a gauge; leave it out, or add"
                        + " --simulated to play"));
      }
      run.measures().stream()
          .filter(row -> row.kind().equals(keyOf()))
          .forEach(row -> values.add(new Measured(run.heading(), row)));
    }
    values.sort((a, b) -> a.run().facts().begun().compareTo(b.run().facts().begun()));
    return values;
  }

  private String keyOf() {
    try {
      return measure.chosen().kind().key();
    } catch (WrongRequest e) {
      throw new IllegalStateException("it was asked for before", e);
    }
  }

  /** The runs of a plan, each turn as often as it is planned. */
  private List<Measured> matched(GaugePlan planned)
      throws WrongRequest, ArchiveFault, FileMistakes, RecordReader.NotARecord {
    Map<Turn, Integer> left = GaugePlan.counts(planned.turns());
    Map<Turn, Set<String>> seen = new LinkedHashMap<>();
    List<Measured> kept = new ArrayList<>();
    for (Measured each : values()) {
      Turn turn = turn(each);
      boolean counts =
          left.containsKey(turn)
              && each.run().result().whole()
              && !each.run().facts().begun().isBefore(planned.begun());
      if (counts) {
        Set<String> runsOf = seen.computeIfAbsent(turn, t -> new HashSet<>());
        String sha256 = each.run().file().sha256();
        if (runsOf.contains(sha256) || runsOf.size() < left.get(turn)) {
          runsOf.add(sha256);
          kept.add(each);
        }
      }
    }
    return kept;
  }

  private static Turn turn(Measured each) {
    return new Turn(each.run().labels().serial(), each.run().labels().operator());
  }

  /** One for each run, at however many places it has the measure. */
  private static List<Turn> turns(List<Measured> all) {
    Map<String, Turn> byRun = new LinkedHashMap<>();
    all.forEach(each -> byRun.put(each.run().file().sha256(), turn(each)));
    return List.copyOf(byRun.values());
  }

  private void tellNext(Shown out, GaugePlan planned, List<Measured> all, Turn next) {
    int done = turns(all).size();
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("done", done);
      told.put("turns", planned.turns().size());
      told.put("next", next);
      out.print(Json.page(told));
    } else {
      out.println(done + " of " + planned.turns().size() + " turns are done.");
      out.println("Next: unit " + next.unit() + ", by " + next.operator() + ".");
    }
    out.flush();
  }

  /** The width between the limits of the runs, where it is one. */
  private OptionalDouble tolerance(Series series) {
    if (tolerance != null) {
      return OptionalDouble.of(tolerance);
    }
    Set<Double> widths =
        series.values().stream()
            .map(Measured::measure)
            .filter(row -> row.low().isPresent() && row.high().isPresent())
            .map(row -> row.high().getAsDouble() - row.low().getAsDouble())
            .collect(Collectors.toSet());
    return widths.size() == 1
        ? OptionalDouble.of(widths.iterator().next())
        : OptionalDouble.empty();
  }

  private void draw(
      Optional<OutputFiles.Place> place, Series series, StudyAnswer answer, OptionalDouble width)
      throws WrongRequest {
    if (answer instanceof GaugeStudy study) {
      String marks = runs.simulated() ? "SIMULATED: " : "";
      HistoryPlots.Subject subject =
          new HistoryPlots.Subject("gauge", marks + "Gauge study: " + series.title(), "share, %");
      PictureOption.draw(place, List.of(HistoryPlots.gauge(subject, study, width)));
    }
  }

  private void tell(
      Shown out, Series series, GaugeCells cells, StudyAnswer answer, OptionalDouble width) {
    out.println("Gauge study: " + series.title() + (runs.simulated() ? ", SIMULATED" : ""));
    out.println(
        cells.units()
            + " units, "
            + cells.operators()
            + (benches ? " benches, " : " operators, ")
            + cells.repeats()
            + " repeats");
    series.leftOutWords().ifPresent(out::println);
    if (cells.over() > 0) {
      out.println("Left out: later values beyond the repeats of every cell, " + cells.over() + ".");
    }
    if (answer instanceof NoAnswer why) {
      out.println(Lacking.words("of what is counted (units, operators, repeats)", why));
      return;
    }
    GaugeStudy study = (GaugeStudy) answer;
    out.println();
    components(out, study, width, series.kind().unit());
    out.println();
    variance(out, study);
    out.println();
    out.println("Distinct categories: " + study.distinctCategories());
  }

  private static void components(Shown out, GaugeStudy study, OptionalDouble width, String unit) {
    List<List<String>> rows = new ArrayList<>();
    for (GaugeStudy.Part part : study.parts()) {
      double deviation = study.deviation(part.effect());
      String note = part.setToZero() ? "not seen" : "";
      rows.add(row(name(part.effect()), study, deviation, width, note));
    }
    rows.add(row("gauge, all together (GRR)", study, study.gauge(), width, ""));
    rows.add(row("everything (TV)", study, study.total(), width, ""));
    new TextTable(
            List.of("component", ">σ, " + unit, ">% of study", ">6σ, % of tolerance", ""), rows)
        .print(out);
  }

  private static List<String> row(
      String name, GaugeStudy study, double deviation, OptionalDouble width, String note) {
    return List.of(
        name,
        Numbers.significant(deviation, 3),
        Numbers.fixed(study.percentOfStudy(deviation), 1),
        width.isPresent()
            ? Numbers.fixed(study.percentOfTolerance(deviation, width.getAsDouble()), 1)
            : "–",
        note);
  }

  private static String name(Effect effect) {
    return switch (effect) {
      case REPEATABILITY -> "repeatability (EV)";
      case OPERATOR -> "operators (AV)";
      case INTERACTION -> "operators by units";
      case UNIT -> "units (PV)";
    };
  }

  private static void variance(Shown out, GaugeStudy study) {
    List<List<String>> rows = new ArrayList<>();
    for (GaugeStudy.Row row : study.table()) {
      rows.add(
          List.of(
              name(row.effect()),
              String.valueOf(row.degrees()),
              Numbers.significant(row.squares(), 4),
              Numbers.significant(row.mean(), 4),
              figure(row.f()),
              figure(row.p())));
    }
    new TextTable(
            List.of("analysis of variance", ">ν", ">squares", ">mean square", ">F", ">p"), rows)
        .print(out);
    if (study.method() == GaugeStudy.Method.CROSSED_POOLED) {
      out.println("No interaction was seen (p above 0.25): it counts as repeatability.");
    }
  }

  private static String figure(OptionalDouble value) {
    return value.isPresent() ? Numbers.significant(value.getAsDouble(), 3) : "";
  }

  private Map<String, Object> fields(
      Series series, GaugeCells cells, StudyAnswer answer, OptionalDouble width) {
    Map<String, Object> told = new LinkedHashMap<>();
    series.put(told);
    told.put("simulated", runs.simulated());
    told.put("units", cells.units());
    told.put(benches ? "benches" : "operators", cells.operators());
    told.put("repeats", cells.repeats());
    if (answer instanceof NoAnswer why) {
      told.put("no_answer", Lacking.fields(why));
      return told;
    }
    GaugeStudy study = (GaugeStudy) answer;
    told.put("method", key(study.method()));
    List<Map<String, Object>> parts = new ArrayList<>();
    for (GaugeStudy.Part part : study.parts()) {
      Map<String, Object> fields = component(study, study.deviation(part.effect()), width);
      fields.put("component", key(part.effect()));
      fields.put("variance", part.variance());
      fields.put("not_seen", part.setToZero());
      parts.add(fields);
    }
    told.put("components", parts);
    told.put("gauge", component(study, study.gauge(), width));
    told.put("total_deviation", study.total());
    told.put("distinct_categories", study.distinctCategories());
    told.put("analysis_of_variance", study.table().stream().map(GaugeCommand::fields).toList());
    return told;
  }

  private static Map<String, Object> component(
      GaugeStudy study, double deviation, OptionalDouble width) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("deviation", deviation);
    fields.put("percent_of_study", study.percentOfStudy(deviation));
    width.ifPresent(
        w -> fields.put("percent_of_tolerance", study.percentOfTolerance(deviation, w)));
    return fields;
  }

  private static Map<String, Object> fields(GaugeStudy.Row row) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("effect", key(row.effect()));
    fields.put("degrees", row.degrees());
    fields.put("squares", row.squares());
    row.f().ifPresent(f -> fields.put("f", f));
    row.p().ifPresent(p -> fields.put("p", p));
    return fields;
  }

  private static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }
}
