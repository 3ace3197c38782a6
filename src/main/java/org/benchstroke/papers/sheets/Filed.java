package org.benchstroke.papers.sheets;

import java.util.List;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.pdf.Attachment;

/**
 * A judged run with the files that it is kept in. Immutable.
 *
 * @param aids the run with its aids
 * @param name of the record's file, without folders
 * @param files the record, its seal and its amendments, as bytes
 */
public record Filed(TwinAndCauses aids, String name, List<Attachment> files) {
  public Filed {
    files = List.copyOf(files);
  }

  JudgedRun run() {
    return aids.run();
  }
}
