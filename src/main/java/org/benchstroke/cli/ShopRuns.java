package org.benchstroke.cli;

import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.ChosenRuns;
import org.benchstroke.app.history.Naming;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.toml.FileMistakes;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The runs that a statistic is of, for every command that makes one. */
final class ShopRuns {
  @Option(names = "--type", paramLabel = "TEXT", description = "Only of this unit type.")
  private Optional<String> type = Optional.empty();

  @Option(names = "--bench", paramLabel = "TEXT", description = "Only of the bench of this name.")
  private Optional<String> bench = Optional.empty();

  @Option(names = "--operator", paramLabel = "NAME", description = "Only of this operator.")
  private Optional<String> operator = Optional.empty();

  @Option(names = "--since", paramLabel = "DAY", description = "Begun on this day or later.")
  private Optional<String> since = Optional.empty();

  @Option(names = "--until", paramLabel = "DAY", description = "Begun on this day or earlier.")
  private Optional<String> until = Optional.empty();

  @Option(
      names = "--simulated",
      description = "Of simulated runs instead of real ones; the result is marked so.")
  private boolean simulated;

  @Mixin private ArchiveOption archive;

  @Mixin private RecordsOption records;

  /** Of the command itself: what is mixed into this class knows no more than this class. */
  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /** Those that were chosen, of this unit if one was named. */
  ChosenRuns chosen(Optional<String> serial) {
    return new ChosenRuns(serial, type, bench, operator, since, until, simulated);
  }

  /** Likewise, of any unit. */
  ChosenRuns chosen() {
    return chosen(Optional.empty());
  }

  /** Their history. */
  ShopHistory history(Archive archive) throws WrongRequest {
    return chosen().of(archive, Naming.OPTIONS);
  }

  Archive open() throws ArchiveFault, FileMistakes, WrongRequest {
    Defaults stated = ShopOption.found(command);
    Optional<ArchivePlace> place = archive.ifAny(records.folder(stated), stated);
    if (place.isEmpty()) {
      throw new WrongRequest(
          "There is no archive: --archive or "
              + ArchiveOption.VARIABLE
              + " says \"none\"; name one with --archive");
    }
    return Archive.existing(place.get());
  }

  boolean simulated() {
    return simulated;
  }
}
