package org.benchstroke.record;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Writes a whole record at once, as it was made from another file. Stateless. */
public final class RecordWriter {
  private RecordWriter() {}

  /**
   * Writes a new file; a record that is there is never replaced.
   *
   * @throws IOException if it is there already or can't be written
   */
  public static void write(Path file, RunRecord record) throws IOException {
    RecordLines lines = new RecordLines();
    try (BufferedWriter out =
        Files.newBufferedWriter(file, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW)) {
      for (Entry entry : record.entries()) {
        out.write(lines.write(entry.nanos(), entry.utc(), entry.event()));
        out.write('\n');
      }
    }
  }
}
