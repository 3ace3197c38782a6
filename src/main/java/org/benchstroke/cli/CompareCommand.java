package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.ReportNumbers;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ComparedRuns;
import org.benchstroke.papers.ComparedRuns.Fact;
import org.benchstroke.papers.ComparedRuns.Pair;
import org.benchstroke.papers.Json;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Two runs side by side. */
@Command(
    name = "compare",
    description = {
      Commands.COMPARE,
      "Two values differ if their distance is more than the root of the sum of their squared U: an"
          + " E_n above 1 (ISO/IEC 17043). A run is its record, or the number of its report, which"
          + " the archive knows."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example:", "  benchstroke compare as-found.jsonl as-left.jsonl --svg both.svg"})
final class CompareCommand implements Callable<Integer> {
  @Parameters(
      index = "0",
      paramLabel = "RUN",
      description = "The first: a record or a report number.")
  private String first = "";

  @Parameters(index = "1", paramLabel = "RUN", description = "The second.")
  private String second = "";

  @Option(names = "--all", description = "Lists measures that don't differ, too.")
  private boolean all;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private ArchiveOption archive;

  @Mixin private RecordsOption records;

  @Mixin private PictureOption picture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest, ArchiveFault, FileMistakes, RecordReader.NotARecord {
    Path one = file(first);
    Path two = file(second);
    OutputFiles outputs = picture.outputs().given("first record", one).given("second record", two);
    Optional<OutputFiles.Place> place = picture.place(outputs);
    ComparedRuns compared = ComparedRuns.of(Reports.judge(one), Reports.judge(two));
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(fields(compared)));
    } else {
      tell(out, compared);
    }
    out.flush();
    Optional<Drawing> drawing = compared.picture();
    if (place.isPresent() && drawing.isEmpty()) {
      Shown.err(spec)
          .println("--svg: not drawn: one of the runs has neither travel errors nor a trace");
    }
    PictureOption.draw(place, drawing.stream().toList());
    return ExitCode.PASSED;
  }

  private Path file(String run) throws FileMistakes, WrongRequest, ArchiveFault {
    if (!run.startsWith("BS-") || run.contains(".") || run.contains("/")) {
      return Path.of(run);
    }
    try (Archive open = Archive.existing(archive.place(records.folder()))) {
      return new ReportNumbers(open).record(run);
    }
  }

  private void tell(Shown out, ComparedRuns compared) {
    marks(out, "1", compared.first());
    marks(out, "2", compared.second());
    out.println();
    List<List<String>> facts = new ArrayList<>();
    for (Fact fact : compared.differing()) {
      facts.add(List.of(fact.name(), fact.first(), fact.second()));
    }
    new TextTable(List.of("fact", "1", "2"), facts).print(out);
    out.println();
    List<Pair> shown = compared.pairs().stream().filter(p -> all || p.differ()).toList();
    List<List<String>> rows = shown.stream().map(CompareCommand::row).toList();
    if (!rows.isEmpty()) {
      new TextTable(List.of("measure", "truth", ">1", ">U", ">2", ">U", ">E_n", "differ"), rows)
          .print(out);
    }
    long differ = compared.pairs().stream().filter(Pair::differ).count();
    out.println(
        differ
            + " of "
            + compared.pairs().size()
            + " measures differ beyond their U"
            + (all || differ == compared.pairs().size() ? "." : "; --all lists the others."));
  }

  private static void marks(Shown out, String which, JudgedRun run) {
    out.println(
        which
            + ": "
            + ReportPages.number(run)
            + (run.simulated() ? "  SIMULATED" : "")
            + (run.complete() ? "" : "  not whole")
            + (run.record().flaws().isEmpty() ? "" : "  DAMAGED RECORD"));
  }

  private static List<String> row(Pair pair) {
    return List.of(
        pair.kind().title() + pair.place().behind(),
        pair.truth().text(),
        figure(pair.first().value()),
        figure(pair.first().half()),
        figure(pair.second().value()),
        figure(pair.second().half()),
        pair.normalised().isPresent() ? Numbers.fixed(pair.normalised().getAsDouble(), 1) : "–",
        pair.differ() ? "yes" : pair.normalised().isPresent() ? "no" : "?");
  }

  private static String figure(OptionalDouble value) {
    return value.isPresent()
        ? Numbers.minusSigns(Numbers.significant(value.getAsDouble(), 3))
        : "–";
  }

  private static Map<String, Object> fields(ComparedRuns compared) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("first", run(compared.first()));
    told.put("second", run(compared.second()));
    told.put("facts", compared.differing());
    List<Map<String, Object>> measures = new ArrayList<>();
    for (Pair pair : compared.pairs()) {
      Map<String, Object> fields = new LinkedHashMap<>();
      fields.put("measure", pair.kind().key());
      fields.put("place", pair.place().id());
      fields.put("truth", pair.truth().text());
      fields.put("unit", pair.kind().unit());
      put(fields, "first", pair.first().value());
      put(fields, "first_u", pair.first().half());
      put(fields, "second", pair.second().value());
      put(fields, "second_u", pair.second().half());
      put(fields, "e_n", pair.normalised());
      if (pair.normalised().isPresent()) {
        fields.put("differ", pair.differ());
      }
      measures.add(fields);
    }
    told.put("measures", measures);
    return told;
  }

  private static Map<String, Object> run(JudgedRun run) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("report", ReportPages.number(run));
    fields.put("simulated", run.simulated());
    fields.put("whole", run.complete());
    fields.put("verdict", run.verdict().text());
    return fields;
  }

  private static void put(Map<String, Object> fields, String key, OptionalDouble value) {
    value.ifPresent(v -> fields.put(key, v));
  }
}
