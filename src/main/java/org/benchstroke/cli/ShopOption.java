package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.web.access.OperatorsFile;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** The option {@code --shop}, for every command that needs what a shop has stated once. */
final class ShopOption {
  @Option(
      names = "--shop",
      paramLabel = "FILE",
      description =
          "The shop file: whatever it says need not be given (default: $BENCHSTROKE_SHOP, or"
              + " benchstroke/shop.toml in the configuration folder, if it is there).")
  private Optional<Path> file = Optional.empty();

  /**
   * The shop's, for a command without the option.
   *
   * @throws FileMistakes with every mistake in it
   */
  static Optional<ShopFile> found(CommandSpec spec) throws FileMistakes, WrongRequest {
    return new ShopOption().read(spec);
  }

  /**
   * The operators file of the shop; it need not be there.
   *
   * @throws WrongRequest if nothing says where it would be
   */
  Path operators(CommandSpec spec) throws WrongRequest {
    return operatorsIfAny(spec)
        .orElseThrow(() -> new WrongRequest("Name the shop file that they belong to: --shop FILE"));
  }

  /** Likewise; empty if nothing says where it would be. */
  Optional<Path> operatorsIfAny(CommandSpec spec) throws WrongRequest {
    ShopPlace place = ShopPlace.of(spec);
    Optional<Path> shop = file.isPresent() ? file : place.file();
    return shop.or(place::otherwise).map(OperatorsFile::beside);
  }

  /**
   * The shop's, from the file that is named or the one that is found.
   *
   * @throws FileMistakes with every mistake in it
   */
  Optional<ShopFile> read(CommandSpec spec) throws FileMistakes, WrongRequest {
    Optional<Path> found = file.isPresent() ? file : ShopPlace.of(spec).file();
    return found.isPresent() ? Optional.of(ShopFileReader.read(found.get())) : Optional.empty();
  }
}
