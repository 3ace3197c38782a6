package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
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
  static final String VARIABLE = Setting.ARCHIVE.variable();

  /** Instead of a place. */
  static final String NONE = "none";

  @Option(
      names = "--archive",
      paramLabel = "PLACE",
      description =
          "The archive: a file, or postgresql://user@host:port/database (default: what is stated,"
              + " or archive.sqlite beside the records).")
  private Optional<String> archive = Optional.empty();

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /**
   * Where it is; empty if there is to be none.
   *
   * @param records the folder beside whose records it is unless that was said
   * @throws FileMistakes if there is a mistake in the user file or in the shop file
   */
  Optional<ArchivePlace> ifAny(Path records) throws ArchiveFault, FileMistakes, WrongRequest {
    return archive.isPresent()
        ? place(archive, records)
        : ifAny(records, ShopOption.found(command));
  }

  /** Likewise, where what is stated has been read. */
  Optional<ArchivePlace> ifAny(Path records, Defaults stated) throws ArchiveFault, WrongRequest {
    return place(stated.text(Setting.ARCHIVE, archive), records);
  }

  /** Likewise, for what is no work of the shop's: only the option and the environment count. */
  Optional<ArchivePlace> apart(Path records) throws ArchiveFault {
    return place(archive.or(() -> Surroundings.of(command).variable(VARIABLE)), records);
  }

  private static Optional<ArchivePlace> place(Optional<String> said, Path records)
      throws ArchiveFault {
    if (said.isEmpty()) {
      return Optional.of(ArchivePlace.beside(records));
    }
    return said.get().equals(NONE)
        ? Optional.empty()
        : Optional.of(ArchivePlace.of(said.get().strip()));
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
