package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.BudgetTable;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RecordWriter;
import org.benchstroke.record.RunRecord;
import org.benchstroke.tests.RecordedRun;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Judges a record again, or what others recorded. */
@Command(
    name = "judge",
    description = {
      Commands.JUDGE,
      "A record needs no other file. A .csv file of a logger, or of readings that were written"
          + " down, needs the bench file and the unit type file. The same input always gives the"
          + " same output, byte for byte."
    },
    mixinStandardHelpOptions = true)
final class JudgeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "The record, a .jsonl file; or a .csv file.")
  private Path file;

  @Option(names = "--json", description = "Prints the judgement as JSON.")
  private boolean json;

  @Option(
      names = "--budgets",
      description = "Prints the uncertainty budget of each measure, too; not with --json.")
  private boolean budgets;

  @Mixin private CsvGiven csv;

  @Option(
      names = "--report",
      paramLabel = "FILE",
      description = "For a .csv file: writes the report there, too, as HTML.")
  private Optional<Path> report;

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "For a .csv file: writes the record made from it; never over an existing file.")
  private Optional<Path> record;

  @Mixin private ForceOption force;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes, WrongRequest, IOException {
    try (Tty tty = Tty.watched()) {
      return judged(Shown.out(spec), tty);
    }
  }

  private int judged(Shown out, Tty tty)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest, IOException {
    TwinAndCauses aids = CsvGiven.isCsv(file) ? imported() : new TwinAndCauses(recorded());
    JudgedRun run = aids.run();
    if (json) {
      out.print(new JsonReport().json(aids));
      out.flush();
    } else {
      if (budgets) {
        out.println(BudgetTable.text(run));
      }
      new VerdictScreen(out, tty.knownWidth()).tell(aids);
    }
    return ExitCode.of(run);
  }

  private JudgedRun recorded() throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    if (csv.any() || report.isPresent() || record.isPresent()) {
      throw new WrongRequest(
          file + ": a record needs no other file and takes none; see judge --help");
    }
    return Reports.judge(file);
  }

  private TwinAndCauses imported() throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    CsvGiven.Files by = csv.files(file, ShopOption.found(spec));
    OutputFiles outputs = by.given(force.outputs()).given("file", file);
    Optional<OutputFiles.Place> kept = outputs.place("--record", record, OutputFiles.Kind.RECORD);
    Optional<OutputFiles.Place> page = outputs.place("--report", report, OutputFiles.Kind.REPORT);
    RunRecord made = csv.record(file, by);
    TwinAndCauses aids =
        new TwinAndCauses(RecordedRun.judge(kept.isEmpty() ? made : kept(made, kept.get())));
    if (page.isPresent()) {
      Optional<String> name = record.map(r -> r.getFileName().toString());
      page.get().write(new HtmlReport().html(aids, name));
    }
    return aids;
  }

  /** What is judged then is what can be judged again, and the report names its digest. */
  private RunRecord kept(RunRecord made, OutputFiles.Place place)
      throws RecordReader.NotARecord, WrongRequest {
    place.write(out -> RecordWriter.write(out, made));
    Sealing.begin(spec, true).seal(place.file());
    return RecordReader.read(place.file());
  }
}
