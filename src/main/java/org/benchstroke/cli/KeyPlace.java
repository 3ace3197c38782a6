package org.benchstroke.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.record.signing.BenchKeys;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Where this bench's key is. By one rule: the folder that {@code BENCHSTROKE_KEYS} names; without
 * it the folder {@code benchstroke} in {@code XDG_CONFIG_HOME}, which is {@code .config} in the
 * user's home unless that is set. A passphrase stands in {@code BENCHSTROKE_PASSPHRASE}, or is
 * asked for.
 *
 * @param folder of the key
 * @param passphrase that the environment has; empty if it has none
 */
record KeyPlace(Path folder, Optional<String> passphrase) {
  static final String FOLDER = "BENCHSTROKE_KEYS";
  static final String PASSPHRASE = "BENCHSTROKE_PASSPHRASE";

  /** By this process's environment. */
  static KeyPlace usual() {
    Path home = Path.of(System.getProperty("user.home", ""));
    Path config = path("XDG_CONFIG_HOME").filter(Path::isAbsolute).orElse(home.resolve(".config"));
    return new KeyPlace(
        path(FOLDER).orElse(config.resolve("benchstroke")),
        Optional.ofNullable(System.getenv(PASSPHRASE)));
  }

  private static Optional<Path> path(String variable) {
    try {
      return Optional.ofNullable(System.getenv(variable)).filter(p -> !p.isBlank()).map(Path::of);
    } catch (InvalidPathException e) {
      return Optional.empty();
    }
  }

  /** A command's. */
  static KeyPlace of(CommandSpec spec) {
    return Root.of(spec).keys();
  }

  BenchKeys keys() {
    return new BenchKeys(folder);
  }

  /** Without the passphrase: it is in no message and in no log. */
  @Override
  public String toString() {
    return folder.toString();
  }
}
