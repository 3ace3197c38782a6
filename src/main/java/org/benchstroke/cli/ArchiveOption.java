package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import picocli.CommandLine.Option;

/** The option {@code --archive}, for every command that uses one. */
final class ArchiveOption {
  /** Names the archive where the option doesn't. */
  static final String VARIABLE = "BENCHSTROKE_ARCHIVE";

  /** Instead of a place. */
  private static final String NONE = "none";

  @Option(
      names = "--archive",
      paramLabel = "PLACE",
      description =
          "The archive: a file, or postgresql://user@host:port/database (default: what "
              + VARIABLE
              + " names, else archive.sqlite beside the records).")
  private Optional<String> archive = Optional.empty();

  /**
   * Where it is; empty if there is to be none.
   *
   * @param records the folder beside whose records it is unless that was said
   */
  Optional<ArchivePlace> ifAny(Path records) throws ArchiveFault {
    Optional<String> said =
        archive.or(() -> Optional.ofNullable(System.getenv(VARIABLE)).filter(v -> !v.isBlank()));
    if (said.isEmpty()) {
      return Optional.of(ArchivePlace.beside(records));
    }
    return said.get().equals(NONE)
        ? Optional.empty()
        : Optional.of(ArchivePlace.of(said.get().strip()));
  }

  /** Likewise, where there must be one. */
  ArchivePlace place(Path records) throws ArchiveFault, WrongRequest {
    return ifAny(records)
        .orElseThrow(
            () ->
                new WrongRequest(
                    "There is no archive: --archive or "
                        + VARIABLE
                        + " says \"none\"; name one with --archive"));
  }
}
