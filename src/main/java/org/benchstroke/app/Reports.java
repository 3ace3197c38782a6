package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.Signatory;
import org.benchstroke.record.RecordReader;
import org.benchstroke.tests.RecordedRun;

/** From a record to its judgement and its reports. Stateless. */
public final class Reports {
  private Reports() {}

  /** Judges a record by the files that it holds. */
  public static JudgedRun judge(Path record) throws RecordReader.NotARecord, FileMistakes {
    return RecordedRun.judge(RecordReader.read(record));
  }

  public static String html(TwinAndCauses aids, Path record, Optional<Signatory> authorised) {
    return new HtmlReport().html(aids, Optional.of(record.getFileName().toString()), authorised);
  }

  /**
   * Judges the record of a run that has just ended, and writes its report and its judgement beside
   * it: their names were free when the run began.
   *
   * @throws IOException if they can't be written
   */
  public static TwinAndCauses write(RecordFiles files)
      throws RecordReader.NotARecord, FileMistakes, IOException {
    TwinAndCauses aids = new TwinAndCauses(judge(files.record()));
    String page = html(aids, files.record(), Optional.empty());
    String text = new JsonReport().json(aids);
    WholeFile.write(files.report(), out -> out.write(page));
    WholeFile.write(files.json(), out -> out.write(text));
    return aids;
  }
}
