package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.diagnosis.Aids;
import org.benchstroke.record.RecordReader;
import org.benchstroke.report.JsonReport;
import org.benchstroke.report.SamplesCsv;
import org.benchstroke.verdict.JudgedRun;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes the report of a record again. */
@Command(
    name = "report",
    description = {
      "Writes the report of a record again.",
      "The report is one HTML page that needs nothing beside itself. The exit code is that of the"
          + " judgement. With --as-found it is one report of two records of a unit: as found,"
          + " and as left after an adjustment, whose exit code it is."
    },
    mixinStandardHelpOptions = true)
final class ReportCommand implements Callable<Integer>, LeavesMore {
  @Parameters(paramLabel = "RECORD", description = "The record, a .jsonl file.")
  private Path record;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Where to write it (default: beside the record, .html).")
  private Path file;

  @Option(
      names = "--csv",
      paramLabel = "FILE",
      description = "Writes the raw samples there, too, as comma-separated values.")
  private Path csv;

  @Option(
      names = "--json",
      paramLabel = "FILE",
      description = "Writes the judgement there, too, as JSON.")
  private Path json;

  @Option(
      names = "--as-found",
      paramLabel = "RECORD",
      description = {
        "The record of the same unit before it was adjusted; RECORD is then as left, and the",
        "report has both."
      })
  private Path asFound;

  @Option(
      names = "--adjusted",
      paramLabel = "TEXT",
      description = "With --as-found: what was adjusted, for the report.")
  private String adjusted;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes, IOException, WrongRequest {
    for (Path given : records()) {
      if (Files.isDirectory(given)) {
        throw new WrongRequest(given + ": is a folder; name a record in it");
      }
    }
    if (adjusted != null && asFound == null) {
      throw new WrongRequest("--adjusted: of what? name the record before it with --as-found");
    }
    Path target = file == null ? usualName() : file;
    refuseRecord(target, "--out");
    refuseRecord(csv, "--csv");
    refuseRecord(json, "--json");
    return asFound == null ? one(target) : both(target);
  }

  /** A report of both stands beside that of the record alone. */
  private Path usualName() {
    Path alone = new RecordFiles(record).report();
    String name = alone.getFileName().toString().replaceFirst("\\.html$", "-with-as-found.html");
    return asFound == null ? alone : alone.resolveSibling(name);
  }

  private List<Path> records() {
    return asFound == null ? List.of(record) : List.of(record, asFound);
  }

  private int one(Path target)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest, IOException {
    JudgedRun run = Outcome.judge(record);
    Aids aids = new Aids(run);
    write("Report:  ", target, Outcome.html(aids, record));
    if (json != null) {
      write("JSON:    ", json, new JsonReport().json(aids));
    }
    samples(run);
    return ExitCode.of(run);
  }

  private int both(Path target)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest, IOException {
    AdjustedReport report =
        new AdjustedReport(asFound, record, adjusted == null ? "" : adjusted.strip());
    Shown.out(spec).println(report.summary());
    write("Report:  ", target, report.html());
    if (json != null) {
      write("JSON:    ", json, report.json());
    }
    samples(report.asLeft());
    return ExitCode.of(report.asLeft());
  }

  private void samples(JudgedRun run) throws WrongRequest {
    if (csv != null) {
      write("Samples: ", csv, SamplesCsv.text(run.record()));
    }
  }

  private void refuseRecord(Path target, String option) throws WrongRequest, IOException {
    for (Path given : records()) {
      if (target != null
          && Files.exists(target)
          && Files.exists(given)
          && Files.isSameFile(target, given)) {
        throw new WrongRequest(target + ": is the record itself; name another file with " + option);
      }
    }
  }

  private void write(String what, Path target, String text) throws WrongRequest {
    try {
      RecordFiles.write(target, text);
    } catch (IOException e) {
      throw WrongRequest.unwritable(target, e);
    }
    Shown.out(spec).println(what + target);
  }
}
