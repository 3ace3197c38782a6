package org.benchstroke.cli;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.Setting;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.UserFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import picocli.CommandLine.Model.CommandSpec;

/**
 * What a command finds around it: variables of the environment, and the configuration folder, which
 * is {@code benchstroke} in {@code XDG_CONFIG_HOME}, which is {@code .config} in the user's home
 * unless that is set. Immutable.
 *
 * @param variables those whose names begin with {@code BENCHSTROKE_}, if they are not blank
 * @param config the configuration folder; it need not be there. Empty where nothing is looked for
 */
record Surroundings(Map<String, String> variables, Optional<Path> config) {
  /** Names the shop file. */
  static final String SHOP = "BENCHSTROKE_SHOP";

  /** Names the user file. */
  static final String USER = "BENCHSTROKE_USER";

  private static final String OURS = "BENCHSTROKE_";
  private static final String CONFIG = "XDG_CONFIG_HOME";

  /** Nothing. */
  static final Surroundings NONE = new Surroundings(Map.of(), Optional.empty());

  Surroundings {
    variables = Map.copyOf(variables);
  }

  /** By this process's environment. */
  static Surroundings usual() {
    return of(System.getenv(), Path.of(System.getProperty("user.home", "")));
  }

  /** By an environment. */
  static Surroundings of(Map<String, String> environment, Path home) {
    Map<String, String> ours = new HashMap<>();
    environment.forEach(
        (name, value) -> {
          if (name.startsWith(OURS) && !value.isBlank()) {
            ours.put(name, value.strip());
          }
        });
    Path config =
        Optional.ofNullable(environment.get(CONFIG))
            .flatMap(Surroundings::path)
            .filter(Path::isAbsolute)
            .orElse(home.resolve(".config"));
    return new Surroundings(ours, Optional.of(config.resolve("benchstroke")));
  }

  /** A command's. */
  static Surroundings of(CommandSpec spec) {
    return Root.of(spec).surroundings();
  }

  /** What a variable says. */
  Optional<String> variable(String name) {
    return Optional.ofNullable(variables.get(name));
  }

  /**
   * The user file, if there is one.
   *
   * @throws WrongRequest if the environment names what can't be a file
   */
  Optional<Path> userFile() throws WrongRequest {
    return named(USER).or(() -> usual("user.toml").filter(Files::exists));
  }

  /** Where a file is looked for that no variable names; empty where nothing is looked for. */
  Optional<Path> usual(String name) {
    return config.map(folder -> folder.resolve(name));
  }

  /**
   * What is stated there.
   *
   * @param shop the shop file, if a command names one
   * @throws FileMistakes with every mistake in the user file or in the shop file
   */
  Defaults defaults(Optional<Path> shop) throws FileMistakes, WrongRequest {
    Optional<UserFile> user = user();
    Optional<Path> found = shopFile(shop, user);
    Optional<ShopFile> read =
        found.isPresent() ? Optional.of(ShopFileReader.read(found.get())) : Optional.empty();
    return Defaults.of(settings(), user, read);
  }

  /**
   * The shop file, if there is one.
   *
   * @param shop the one that a command names
   * @throws FileMistakes with every mistake in the user file
   */
  Optional<Path> shopFile(Optional<Path> shop) throws FileMistakes, WrongRequest {
    return shopFile(shop, user());
  }

  private Optional<Path> shopFile(Optional<Path> shop, Optional<UserFile> user)
      throws WrongRequest {
    Optional<Path> named = shop.isPresent() ? shop : named(SHOP);
    return named
        .or(() -> user.flatMap(UserFile::shop))
        .or(() -> usual("shop.toml").filter(Files::exists));
  }

  private Optional<UserFile> user() throws FileMistakes, WrongRequest {
    Optional<Path> own = userFile();
    return own.isPresent() ? Optional.of(UserFile.read(own.get())) : Optional.empty();
  }

  private Map<Setting, String> settings() {
    Map<Setting, String> settings = new EnumMap<>(Setting.class);
    for (Setting setting : Setting.values()) {
      variable(setting.variable()).ifPresent(value -> settings.put(setting, value));
    }
    return settings;
  }

  private Optional<Path> named(String variable) throws WrongRequest {
    Optional<String> text = variable(variable);
    Optional<Path> path = text.flatMap(Surroundings::path);
    if (text.isPresent() && path.isEmpty()) {
      throw new WrongRequest(
          variable + ": found \"" + text.get() + "\", allowed is the name of a file");
    }
    return path;
  }

  private static Optional<Path> path(String text) {
    try {
      return Optional.of(text).filter(p -> !p.isBlank()).map(Path::of);
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }

  /** Without the values: there may be a passphrase among them. */
  @Override
  public String toString() {
    return config.map(Path::toString).orElse("nowhere");
  }
}
