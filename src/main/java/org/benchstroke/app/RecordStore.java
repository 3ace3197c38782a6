package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;

/**
 * The records of a folder. Their names say when they were begun, so the newest are found by the
 * names alone; of a record no more than its two ends is read, and that only once it is asked for:
 * what many old records there are costs nothing but their names. Any thread.
 *
 * @param folder where they are; it need not be there yet
 * @param opening how a record is opened
 */
public record RecordStore(Path folder, Opening opening) {
  /** What a record's name begins with, so that names sort by time. */
  private static final Pattern STAMPED = Pattern.compile("[0-9]{8}-[0-9]{6}-.*");

  /** How the name of a record's first amendment ends. */
  private static final String AMENDED = ".amendment-1";

  /** How a record is opened. */
  interface Opening {
    /** Of files, as they are. */
    Opening FILES =
        new Opening() {
          @Override
          public RecordHeading heading(Path file) throws RecordReader.NotARecord {
            return RecordHeading.read(file);
          }

          @Override
          public RunRecord whole(Path file) throws RecordReader.NotARecord {
            return RecordReader.read(file);
          }
        };

    /** Its two ends. */
    RecordHeading heading(Path file) throws RecordReader.NotARecord;

    /** All of it, with what was amended. */
    RunRecord whole(Path file) throws RecordReader.NotARecord;
  }

  /** The records of a folder. */
  public RecordStore(Path folder) {
    this(folder, Opening.FILES);
  }

  /**
   * A file that should be a record.
   *
   * @param file where it is
   * @param heading how it begins and ends; empty if it is none
   * @param flaw why it is none; empty if it is one
   */
  public record Listing(Path file, Optional<RecordHeading> heading, String flaw) {}

  private Listing listing(Path file) {
    try {
      return new Listing(file, Optional.of(opening.heading(file)), "");
    } catch (RecordReader.NotARecord e) {
      return new Listing(file, Optional.empty(), e.getMessage());
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
        .map(this::listing);
  }

  /**
   * Those that may be of a unit, the newest first: by their names, and all whose names say nothing,
   * since they were renamed, or say what was amended since.
   */
  public Stream<Path> mayBeOf(String serial) throws IOException {
    Set<String> amended = amended();
    return files().stream()
        .filter(
            file -> {
              String name = file.getFileName().toString();
              return !stamped(file) || amended.contains(name) || RecordFiles.mayBeOf(serial, name);
            })
        .sorted(Comparator.reverseOrder());
  }

  /** The names of records that have an amendment beside them. */
  private Set<String> amended() throws IOException {
    Set<String> names = new HashSet<>();
    if (Files.isDirectory(folder)) {
      try (DirectoryStream<Path> files =
          Files.newDirectoryStream(folder, "*" + RecordFiles.RECORD_END + AMENDED)) {
        for (Path file : files) {
          String name = file.getFileName().toString();
          names.add(name.substring(0, name.length() - AMENDED.length()));
        }
      }
    }
    return names;
  }

  /**
   * A record's heading, and of which job it is, as amended.
   *
   * @throws RecordReader.NotARecord if it is none
   */
  Named named(Path file) throws RecordReader.NotARecord {
    RecordHeading heading = opening.heading(file);
    if (!Files.exists(file.resolveSibling(file.getFileName() + AMENDED))) {
      return new Named(heading, heading.opened().order(), heading.opened().serial());
    }
    RunRecord record = opening.whole(file);
    return new Named(heading, record.label(Label.ORDER), record.label(Label.SERIAL));
  }

  /**
   * Of which job a record is.
   *
   * @param heading how it begins and ends
   * @param order the customer's order, as amended; may be blank
   * @param serial the unit's serial number, as amended; may be blank
   */
  record Named(RecordHeading heading, String order, String serial) {
    Named {
      order = order.strip();
      serial = serial.strip();
    }

    boolean simulated() {
      return !heading.opened().simulated().isBlank() || heading.opened().timeScale() != 1.0;
    }
  }

  /** The others, in no order. */
  Stream<Listing> undated() throws IOException {
    return files().stream().filter(file -> !stamped(file)).map(this::listing);
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
