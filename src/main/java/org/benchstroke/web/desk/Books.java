package org.benchstroke.web.desk;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.web.Refusal;

/** The archive, opened when it is first asked and kept open; any thread, several at a time. */
final class Books implements AutoCloseable {
  private static final Pattern DIGITS = Pattern.compile("[0-9a-f]{8,64}");

  private final Optional<ArchivePlace> place;
  private Optional<Archive> open = Optional.empty();

  /** Opens nothing yet. */
  Books(Optional<ArchivePlace> place) {
    this.place = place;
  }

  /** A question. */
  interface Asked<T> {
    T by(Archive archive) throws ArchiveFault, WrongRequest, Refusal;
  }

  /**
   * Asks it.
   *
   * @throws Refusal if there is no archive, or it can't be used now
   */
  <T> T ask(Asked<T> question) throws Refusal, WrongRequest {
    try {
      return question.by(archive());
    } catch (ArchiveFault e) {
      close();
      throw Refusal.notNow(e.getMessage());
    }
  }

  private synchronized Archive archive() throws Refusal, ArchiveFault {
    if (place.isEmpty()) {
      throw Refusal.notThere(
          "This screen was opened without an archive, so there is no history. Open it again with"
              + " --archive and its place.");
    }
    if (open.isEmpty()) {
      if (place.get() instanceof ArchivePlace.InFile in && !Files.exists(in.file())) {
        throw Refusal.notThere(
            "Nothing is in the archive yet: the first run makes it. Records that are there already"
                + " are put into it by the command archive rebuild.");
      }
      open = Optional.of(Archive.existing(place.get()));
    }
    return open.get();
  }

  /**
   * A run by the beginning of its record's digest, as it stands in an address.
   *
   * @throws Refusal if there is none, or several
   */
  Heading run(String id) throws Refusal, WrongRequest {
    List<Heading> found =
        DIGITS.matcher(id).matches() ? ask(archive -> archive.byDigest(id)) : List.of();
    if (found.size() != 1) {
      throw Refusal.notThere(
          found.isEmpty()
              ? "The archive has no run of this address. Was its record changed or taken out since?"
                  + " Look for its serial number in the history."
              : "Several runs have this address. Look for the serial number in the history.");
    }
    return found.get(0);
  }

  /** Where the record of a run was when it was archived. */
  static Path file(Heading run) {
    return Path.of(run.file().folder()).resolve(run.file().name());
  }

  /** After this it opens again when it is asked. */
  @Override
  public synchronized void close() {
    open.ifPresent(Archive::close);
    open = Optional.empty();
  }
}
