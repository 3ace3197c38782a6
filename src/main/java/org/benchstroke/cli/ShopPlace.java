package org.benchstroke.cli;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.benchstroke.app.WrongRequest;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Where the shop file is if no command names it: the file that {@code BENCHSTROKE_SHOP} names;
 * without it {@code benchstroke/shop.toml} in {@code XDG_CONFIG_HOME}, which is {@code .config} in
 * the user's home unless that is set, if there is such a file.
 *
 * @param named what {@code BENCHSTROKE_SHOP} says
 * @param otherwise the file that need not be there; empty where none is looked for
 */
record ShopPlace(Optional<String> named, Optional<Path> otherwise) {
  static final String FILE = "BENCHSTROKE_SHOP";
  private static final String CONFIG = "XDG_CONFIG_HOME";

  /** None: nothing is looked for. */
  static final ShopPlace NONE = new ShopPlace(Optional.empty(), Optional.empty());

  /** By this process's environment. */
  static ShopPlace usual() {
    return of(System::getenv, Path.of(System.getProperty("user.home", "")));
  }

  /**
   * By an environment.
   *
   * @param environment gives the value of a variable, or null
   */
  static ShopPlace of(UnaryOperator<String> environment, Path home) {
    Path config =
        Optional.ofNullable(environment.apply(CONFIG))
            .flatMap(ShopPlace::path)
            .filter(Path::isAbsolute)
            .orElse(home.resolve(".config"));
    return new ShopPlace(
        Optional.ofNullable(environment.apply(FILE)).filter(named -> !named.isBlank()),
        Optional.of(config.resolve("benchstroke").resolve("shop.toml")));
  }

  /** A command's. */
  static ShopPlace of(CommandSpec spec) {
    return Root.of(spec).shop();
  }

  /**
   * The file, if there is one.
   *
   * @throws WrongRequest if the environment names what can't be a file
   */
  Optional<Path> file() throws WrongRequest {
    if (named.isEmpty()) {
      return otherwise.filter(Files::exists);
    }
    return Optional.of(
        path(named.get())
            .orElseThrow(
                () ->
                    new WrongRequest(
                        FILE + ": found \"" + named.get() + "\", allowed is the name of a file")));
  }

  private static Optional<Path> path(String text) {
    try {
      return Optional.of(text).filter(p -> !p.isBlank()).map(Path::of);
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }
}
