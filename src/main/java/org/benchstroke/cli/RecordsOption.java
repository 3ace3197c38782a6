package org.benchstroke.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
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
          "The folder for the files that it leaves (default: what is stated, or records).")
  private Optional<Path> folder = Optional.empty();

  @Spec(Spec.Target.MIXEE)
  private CommandSpec command;

  /**
   * The one that was named; else the one that is stated.
   *
   * @throws FileMistakes if there is a mistake in the user file or in the shop file
   */
  Path folder() throws FileMistakes, WrongRequest {
    return folder.isPresent() ? folder.get() : folder(ShopOption.found(command));
  }

  /** Likewise, where what is stated has been read. */
  Path folder(Defaults stated) throws WrongRequest {
    if (folder.isPresent()) {
      return folder.get();
    }
    Optional<Defaults.Value> value = stated.value(Setting.RECORDS);
    try {
      return value.map(Defaults.Value::text).map(Path::of).orElse(USUAL);
    } catch (InvalidPathException e) {
      throw new WrongRequest(
          value.orElseThrow().where() + ": \"" + e.getInput() + "\" is not the name of a folder");
    }
  }

  /** The one that was named; what is no work of the shop's lies apart from it. */
  Path apart() {
    return folder.orElse(USUAL);
  }
}
