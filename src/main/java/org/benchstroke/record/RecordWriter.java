package org.benchstroke.record;

import java.io.IOException;
import java.io.Writer;

/** Writes a whole record at once, as it was made from another file. Stateless. */
public final class RecordWriter {
  private RecordWriter() {}

  /**
   * Writes all lines of a record.
   *
   * @throws IOException if they can't be written
   */
  public static void write(Writer out, RunRecord record) throws IOException {
    RecordLines lines = new RecordLines();
    for (Entry entry : record.entries()) {
      out.write(lines.write(entry.nanos(), entry.utc(), entry.step(), entry.event()));
      out.write('\n');
    }
  }
}
