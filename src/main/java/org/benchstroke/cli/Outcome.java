package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Authorised;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.ResultTable;
import org.benchstroke.record.RecordReader;
import org.benchstroke.tests.RecordedRun;

/** From a record to its judgement, its report and its exit code. */
final class Outcome {
  private final Shown out;
  private final int columns;

  /**
   * For a terminal.
   *
   * @param columns of it
   */
  Outcome(Shown out, int columns) {
    this.out = out;
    this.columns = columns;
  }

  /** Judges the record of a run that has just ended, writes its report and tells both. */
  int reported(RecordFiles files, boolean json)
      throws RecordReader.NotARecord, FileMistakes, IOException {
    JudgedRun run = judge(files.record());
    TwinAndCauses aids = new TwinAndCauses(run);
    Optional<String> name = Optional.of(files.record().getFileName().toString());
    String text = new JsonReport().json(aids);
    // Their names were free when the run began.
    String page = new HtmlReport().html(aids, name);
    WholeFile.write(files.report(), file -> file.write(page));
    WholeFile.write(files.json(), file -> file.write(text));
    if (json) {
      out.print(text);
    } else {
      tell(aids);
      out.println();
      out.println("Report:  " + files.report());
      out.println("Record:  " + files.record());
    }
    out.flush();
    return ExitCode.of(run);
  }

  static JudgedRun judge(Path record) throws RecordReader.NotARecord, FileMistakes {
    return RecordedRun.judge(RecordReader.read(record));
  }

  static String html(TwinAndCauses aids, Path record, Optional<Authorised> authorised) {
    return new HtmlReport().html(aids, Optional.of(record.getFileName().toString()), authorised);
  }

  /** The judgement as people read it at a terminal. */
  void tell(TwinAndCauses aids) {
    JudgedRun run = aids.run();
    out.println();
    out.print(ResultTable.text(run, columns));
    if (run.imported().isEmpty()) {
      out.println();
      out.println("Likely cause (an aid, no part of the verdict)");
      aids.diagnosis().linesBeside(run.findings()).forEach(this::tellBelow);
    }
  }

  private void tellBelow(String line) {
    int indent = line.length() - line.stripLeading().length();
    out.println(Wrapped.text("  " + line, columns, indent + 4));
  }
}
