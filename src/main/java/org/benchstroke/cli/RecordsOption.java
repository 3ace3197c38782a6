package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import picocli.CommandLine.Option;

/** The option {@code --records}, for every command that leaves something there. */
final class RecordsOption {
  @Option(
      names = "--records",
      paramLabel = "DIR",
      description = "The folder for the files that it leaves (default: records).")
  private Optional<Path> folder = Optional.empty();

  Path folder() {
    return folder(Optional.empty());
  }

  /** Likewise, where the shop may have stated it. */
  Path folder(Optional<ShopFile> shop) {
    return folder.or(() -> shop.flatMap(ShopFile::records)).orElseGet(() -> Path.of("records"));
  }
}
