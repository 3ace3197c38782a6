package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.web.access.OperatorsFile;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** The option {@code --shop}, and what is stated there and elsewhere once for all commands. */
final class ShopOption {
  @Option(
      names = "--shop",
      paramLabel = "FILE",
      description =
          "The shop file (default: $BENCHSTROKE_SHOP, the user file's, or benchstroke/shop.toml in"
              + " the configuration folder). \"config\" shows what is stated.")
  private Optional<Path> file = Optional.empty();

  /**
   * What is stated, for a command without the option.
   *
   * @throws FileMistakes with every mistake in the user file or in the shop file
   */
  static Defaults found(CommandSpec spec) throws FileMistakes, WrongRequest {
    return Surroundings.of(spec).defaults(Optional.empty());
  }

  /** Likewise, by the shop file that is named or the one that is found. */
  Defaults read(CommandSpec spec) throws FileMistakes, WrongRequest {
    return Surroundings.of(spec).defaults(file);
  }

  /**
   * The operators file of the shop; it need not be there.
   *
   * @throws WrongRequest if nothing says where it would be
   */
  Path operators(CommandSpec spec) throws FileMistakes, WrongRequest {
    return operatorsIfAny(spec)
        .orElseThrow(() -> new WrongRequest("Name the shop file that they belong to: --shop FILE"));
  }

  /** Likewise; empty if nothing says where it would be. */
  Optional<Path> operatorsIfAny(CommandSpec spec) throws FileMistakes, WrongRequest {
    Surroundings around = Surroundings.of(spec);
    return around.shopFile(file).or(() -> around.usual("shop.toml")).map(OperatorsFile::beside);
  }
}
