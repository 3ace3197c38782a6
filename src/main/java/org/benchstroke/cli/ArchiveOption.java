package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.core.toml.FileMistakes;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

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
              + " or the shop file names, else archive.sqlite beside the records).")
  private Optional<String> archive = Optional.empty();

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /**
   * Where it is; empty if there is to be none.
   *
   * @param records the folder beside whose records it is unless that was said
   * @throws FileMistakes if there is a mistake in the shop file
   */
  Optional<ArchivePlace> ifAny(Path records) throws ArchiveFault, FileMistakes, WrongRequest {
    return said().isPresent()
        ? ifAny(records, Optional.empty())
        : ifAny(records, ShopOption.found(command));
  }

  /** Likewise, where the shop's file was named. */
  Optional<ArchivePlace> ifAny(Path records, Optional<ShopFile> shop) throws ArchiveFault {
    Optional<String> said = said().or(() -> shop.flatMap(ShopFile::archive));
    if (said.isEmpty()) {
      return Optional.of(ArchivePlace.beside(records));
    }
    return said.get().equals(NONE)
        ? Optional.empty()
        : Optional.of(ArchivePlace.of(said.get().strip()));
  }

  private Optional<String> said() {
    return archive.or(() -> Optional.ofNullable(System.getenv(VARIABLE)).filter(v -> !v.isBlank()));
  }

  /** Likewise, where there must be one. */
  ArchivePlace place(Path records) throws ArchiveFault, FileMistakes, WrongRequest {
    return ifAny(records)
        .orElseThrow(
            () ->
                new WrongRequest(
                    "There is no archive: --archive or "
                        + VARIABLE
                        + " says \"none\"; name one with --archive"));
  }
}
