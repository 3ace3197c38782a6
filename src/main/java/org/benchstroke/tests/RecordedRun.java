package org.benchstroke.tests;

import java.util.List;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitTypeReader;

/** Judges a record by the files that it holds, so that it needs nothing else. Stateless. */
public final class RecordedRun {
  private RecordedRun() {}

  /**
   * Judges a record.
   *
   * @throws FileMistakes if a file that it holds can't be read any more
   */
  public static JudgedRun judge(RunRecord record) throws FileMistakes {
    return Catalogue.judge()
        .judge(
            record,
            BenchFileReader.read(document(record, BenchFileReader.KIND)),
            UnitTypeReader.read(document(record, UnitTypeReader.KIND)),
            ProcedureReader.read(document(record, ProcedureReader.KIND)));
  }

  private static TomlDocument document(RunRecord record, String kind) throws FileMistakes {
    for (Event.SourceFile file : record.opened().files()) {
      if (file.kind().equals(kind)) {
        return TomlDocument.parse(file.name() + " (in the record)", file.text());
      }
    }
    throw new FileMistakes(
        List.of(new Mistake("record", 1, "files", "holds no " + kind + " file")));
  }
}
