package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.MeasuresCsv;
import org.benchstroke.papers.UnitsCsv;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;

/** The options that make tables of judged records, of one or of many. */
final class TableOptions {
  private static final Set<String> OF_MANY = Set.of("--csv-summary", "--csv-measures", "--force");

  @Option(
      names = "--csv-summary",
      paramLabel = "FILE",
      description =
          "Writes a table there, too, with a row for each record: serial, verdict, first failing"
              + " measure, likely cause.")
  private Optional<Path> summary = Optional.empty();

  @Option(
      names = "--csv-measures",
      paramLabel = "FILE",
      description = "Writes a table there, too, with a row for each measure of each record.")
  private Optional<Path> measures = Optional.empty();

  /** Where the tables go. */
  record Places(Optional<OutputFiles.Place> summary, Optional<OutputFiles.Place> measures) {}

  Places places(OutputFiles outputs) throws WrongRequest {
    return new Places(
        outputs.place("--csv-summary", summary, OutputFiles.Kind.UNITS),
        outputs.place("--csv-measures", measures, OutputFiles.Kind.MEASURES));
  }

  /** Writes those that were asked for, of records in this order. */
  static void write(Places places, List<UnitsCsv.Run> runs, Shown shown) throws WrongRequest {
    if (places.summary().isPresent()) {
      places.summary().get().write(UnitsCsv.text(runs));
      shown.println("Summary: " + places.summary().get().file());
    }
    if (places.measures().isPresent()) {
      List<MeasuresCsv.Run> judged =
          runs.stream().map(r -> new MeasuresCsv.Run(r.which(), r.aids().run())).toList();
      places.measures().get().write(MeasuresCsv.text(judged));
      shown.println("Measures: " + places.measures().get().file());
    }
  }

  static UnitsCsv.Run run(String which, Path record, TwinAndCauses aids) {
    return new UnitsCsv.Run(which, aids, record.getFileName().toString());
  }

  /**
   * Judges many records into tables; nothing else can be made of many.
   *
   * @return the exit code of the worst of them
   */
  int ofMany(List<Path> records, OutputFiles outputs, CommandSpec spec)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    requireTables(spec);
    requireOnce(records);
    Places places = places(outputs);
    List<UnitsCsv.Run> runs = new ArrayList<>();
    int code = ExitCode.PASSED;
    for (Path record : records) {
      JudgedRun run = Reports.judge(record);
      runs.add(run("", record, new TwinAndCauses(run)));
      code = Math.max(code, ExitCode.of(run));
    }
    write(places, runs, Shown.out(spec));
    return code;
  }

  private void requireTables(CommandSpec spec) throws WrongRequest {
    String others =
        spec.commandLine().getParseResult().matchedOptions().stream()
            .map(OptionSpec::longestName)
            .filter(name -> !OF_MANY.contains(name))
            .collect(Collectors.joining(", "));
    if ((summary.isEmpty() && measures.isEmpty()) || !others.isEmpty()) {
      throw new WrongRequest(
          "several records go into tables only: give --csv-summary, --csv-measures or both"
              + (others.isEmpty() ? "" : ", and leave out " + others)
              + "; a report is of one record");
    }
  }

  private static void requireOnce(List<Path> records) throws WrongRequest {
    List<Path> seen = new ArrayList<>();
    for (Path record : records) {
      Path whole = record.toAbsolutePath().normalize();
      if (seen.contains(whole)) {
        throw new WrongRequest(record + ": is given twice; each record has one row");
      }
      seen.add(whole);
    }
  }
}
