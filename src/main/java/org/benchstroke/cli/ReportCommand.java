package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
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
          + " judgement."
    },
    mixinStandardHelpOptions = true)
final class ReportCommand implements Callable<Integer> {
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

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes, IOException, WrongRequest {
    if (Files.isDirectory(record)) {
      throw new WrongRequest(record + ": is a folder; name a record in it");
    }
    Path target = file == null ? new RecordFiles(record).report() : file;
    refuseRecord(target, "--out");
    if (csv != null) {
      refuseRecord(csv, "--csv");
    }
    JudgedRun run = Outcome.judge(record);
    write(target, Outcome.html(run, record));
    spec.commandLine().getOut().println("Report:  " + target);
    if (csv != null) {
      write(csv, SamplesCsv.text(run.record()));
      spec.commandLine().getOut().println("Samples: " + csv);
    }
    return ExitCode.of(run);
  }

  private void refuseRecord(Path target, String option) throws WrongRequest, IOException {
    if (Files.exists(target) && Files.exists(record) && Files.isSameFile(target, record)) {
      throw new WrongRequest(target + ": is the record itself; name another file with " + option);
    }
  }

  private static void write(Path target, String text) throws WrongRequest {
    try {
      RecordFiles.write(target, text);
    } catch (IOException e) {
      throw WrongRequest.unwritable(target, e);
    }
  }
}
