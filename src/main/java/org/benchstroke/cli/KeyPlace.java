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

  /**
   * By what is around a command.
   *
   * @param around with a configuration folder
   */
  static KeyPlace of(Surroundings around) {
    return new KeyPlace(
        around.variable(FOLDER).flatMap(KeyPlace::path).orElse(around.config().orElseThrow()),
        Optional.ofNullable(System.getenv(PASSPHRASE)));
  }

  private static Optional<Path> path(String text) {
    try {
      return Optional.of(Path.of(text));
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
