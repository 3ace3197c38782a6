package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.record.Amendments;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.Seal;
import org.benchstroke.record.SealFile;

/**
 * Whether a record is as it was sealed, and what was amended beside it. Immutable.
 *
 * @param seal of the record
 * @param amendments those beside it; of what was changed nothing counts, not what was amended of it
 *     either
 */
public record Verified(Seal seal, Amendments amendments) {
  /**
   * Of a record.
   *
   * @throws Unreadable if there is no such record, with the reason, to be put behind its name
   * @throws IOException if it can't be read
   * @throws RecordReader.NotARecord if it is none
   */
  public static Verified of(Path record) throws Unreadable, IOException, RecordReader.NotARecord {
    Seal seal = SealFile.check(record);
    return new Verified(
        seal,
        seal.state() == Seal.State.BROKEN
            ? Amendments.NONE
            : RecordReader.read(record).amendments());
  }

  /** Whether every byte is as it was sealed, under its name, and all amendments hold. */
  public boolean well() {
    return seal.state() == Seal.State.SEALED && amendments.flaws().isEmpty();
  }

  /** In a few words, with the first line that is not as it was. */
  public String words() {
    return switch (seal.state()) {
      case SEALED -> "sealed and whole";
      case RENAMED -> "RENAMED, but whole: " + seal.detail();
      case NOT_SEALED -> "NOT SEALED: " + seal.detail();
      case BROKEN -> "CHANGED: " + seal.detail();
    };
  }
}
