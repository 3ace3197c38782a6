package org.benchstroke.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;

/**
 * That a person saw to the unit of a run that did not leave it proven safe. It stands in a small
 * file beside the record, a line for each answer; the record itself is never touched. Stateless.
 */
public final class SeenTo {
  private static final String END = ".seen-to.txt";

  private SeenTo() {}

  /** Whether somebody said so of the run of that record. */
  public static boolean answered(Path record) {
    try {
      return Files.isRegularFile(beside(record)) && Files.size(beside(record)) > 0;
    } catch (IOException e) {
      return false; // what can't be read says nothing
    }
  }

  /**
   * Appends the answer.
   *
   * @return the file in which it stands
   * @throws WrongRequest if that run left nothing to be seen to, or is none
   */
  public static Path note(Path record, String operator, Instant now)
      throws WrongRequest, IOException {
    try {
      RecordHeading heading = RecordHeading.read(record);
      boolean safe = heading.safe().map(Event.MadeSafe::confirmed).orElse(false);
      if (safe && heading.closed().isPresent()) {
        throw new WrongRequest(
            "--seen-to: " + record + " is of a run that ended with its safe signal confirmed");
      }
    } catch (RecordReader.NotARecord e) {
      throw new WrongRequest(
          "--seen-to: " + e.getMessage() + "; give the record that the warning names");
    }
    String line =
        now
            + " "
            + operator.strip().replaceAll("\\p{Cntrl}", " ")
            + " saw to the unit of this run\n";
    Files.writeString(
        beside(record),
        line,
        StandardCharsets.UTF_8,
        StandardOpenOption.CREATE,
        StandardOpenOption.APPEND);
    return beside(record);
  }

  private static Path beside(Path record) {
    return record.resolveSibling(record.getFileName() + END);
  }
}
