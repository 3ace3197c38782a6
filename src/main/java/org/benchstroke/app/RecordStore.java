package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;

/**
 * The records of a folder. Their names say when they were begun, so the newest are found by the
 * names alone; of a record no more than its two ends is read, and that only once it is asked for:
 * what many old records there are costs nothing but their names. Any thread.
 *
 * @param folder where they are; it need not be there yet
 */
public record RecordStore(Path folder) {
  /** What a record's name begins with, so that names sort by time. */
  private static final Pattern STAMPED = Pattern.compile("[0-9]{8}-[0-9]{6}-.*");

  /**
   * A file that should be a record.
   *
   * @param file where it is
   * @param heading how it begins and ends; empty if it is none
   * @param flaw why it is none; empty if it is one
   */
  public record Listing(Path file, Optional<RecordHeading> heading, String flaw) {
    private static Listing of(Path file) {
      try {
        return new Listing(file, Optional.of(RecordHeading.read(file)), "");
      } catch (RecordReader.NotARecord e) {
        return new Listing(file, Optional.empty(), e.getMessage());
      }
    }
  }

  /**
   * All of them, the newest first; those whose names say nothing of their time come last. Each is
   * read as the stream comes to it.
   *
   * @throws IOException if the folder can't be listed
   */
  public Stream<Listing> headings() throws IOException {
    return Stream.concat(dated(), undated());
  }

  /** Those whose names say when they were begun, the newest first. */
  Stream<Listing> dated() throws IOException {
    return files().stream()
        .filter(RecordStore::stamped)
        .sorted(Comparator.reverseOrder())
        .map(Listing::of);
  }

  /** The others, in no order. */
  Stream<Listing> undated() throws IOException {
    return files().stream().filter(file -> !stamped(file)).map(Listing::of);
  }

  private static boolean stamped(Path file) {
    return STAMPED.matcher(file.getFileName().toString()).matches();
  }

  private List<Path> files() throws IOException {
    List<Path> found = new ArrayList<>();
    if (Files.isDirectory(folder)) {
      try (DirectoryStream<Path> files =
          Files.newDirectoryStream(folder, "*" + RecordFiles.RECORD_END)) {
        files.forEach(found::add);
      }
    }
    return found;
  }

  /** Names for a new run, which are free. */
  RecordFiles fresh(String serial, Instant now) {
    return RecordFiles.fresh(folder, serial, now);
  }
}
