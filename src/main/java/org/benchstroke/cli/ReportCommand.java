package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
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

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes, IOException, WrongRequest {
    Path target = file == null ? new RecordFiles(record).report() : file;
    if (Files.exists(target) && Files.exists(record) && Files.isSameFile(target, record)) {
      throw new WrongRequest(target + ": is the record itself; name another file with --out");
    }
    JudgedRun run = Outcome.judge(record);
    String page = Outcome.html(run, record);
    try {
      RecordFiles.write(target, page);
    } catch (IOException e) {
      throw WrongRequest.unwritable(target, e);
    }
    spec.commandLine().getOut().println("Report:  " + target);
    return ExitCode.of(run);
  }
}
