package org.benchstroke.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.benchstroke.bench.toml.FileMistakes;
import org.benchstroke.record.RecordReader;
import org.benchstroke.report.BudgetTable;
import org.benchstroke.report.JsonReport;
import org.benchstroke.verdict.JudgedRun;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Judges a record again. */
@Command(
    name = "judge",
    description = {
      "Judges a record again.",
      "It needs no other file, and the same record always gives the same output, byte for byte."
    },
    mixinStandardHelpOptions = true)
final class JudgeCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECORD", description = "The record, a .jsonl file.")
  private Path record;

  @Option(names = "--json", description = "Prints the judgement as JSON.")
  private boolean json;

  @Option(
      names = "--budgets",
      description = "Prints the uncertainty budget of each measure, too; not with --json.")
  private boolean budgets;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes {
    PrintWriter out = spec.commandLine().getOut();
    JudgedRun run = Outcome.judge(record);
    if (json) {
      out.print(new JsonReport().json(run));
      out.flush();
    } else {
      if (budgets) {
        out.println(BudgetTable.text(run));
      }
      new Outcome(out).tell(run);
    }
    return ExitCode.of(run);
  }
}
