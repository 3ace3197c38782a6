package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The option {@code --records}, for every command that leaves something there. */
final class RecordsOption {
  private static final Path USUAL = Path.of("records");

  @Option(
      names = "--records",
      paramLabel = "DIR",
      description =
          "The folder for the files that it leaves (default: the shop file's, else records).")
  private Optional<Path> folder = Optional.empty();

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /**
   * The one that was named; else the shop's, if a shop file is found and says.
   *
   * @throws FileMistakes if there is a mistake in the shop file
   */
  Path folder() throws FileMistakes, WrongRequest {
    return folder.isPresent() ? folder.get() : folder(ShopOption.found(command));
  }

  /** Likewise, where the shop's file was named. */
  Path folder(Optional<ShopFile> shop) {
    return folder.or(() -> shop.flatMap(ShopFile::records)).orElse(USUAL);
  }

  /** The one that was named; what is no work of the shop's lies apart from it. */
  Path apart() {
    return folder.orElse(USUAL);
  }
}
