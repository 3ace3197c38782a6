package org.benchstroke.app;

import java.nio.file.Path;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

/**
 * What one person at one computer need not type. Immutable.
 *
 * @param path where it is
 * @param shop the shop file, if it names one
 * @param operator who works there, if it says
 * @param stated what else it states
 */
public record UserFile(Path path, Optional<Path> shop, Optional<String> operator, Stated stated) {
  /** The value of a user file's key {@code kind}. */
  public static final String KIND = "user";

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it; a file that it names must be there
   */
  public static UserFile read(Path path) throws FileMistakes {
    TomlDocument document = TomlDocument.read(path);
    document.expect(KIND);
    TomlSection root = document.root();
    Optional<Path> shop = StatedReader.file(root, path, "shop");
    Optional<String> operator = root.optionalText("operator");
    Stated stated = StatedReader.read(root, path);
    root.noOtherKeys();
    document.finish();
    return new UserFile(path, shop, operator, stated);
  }

  Optional<String> value(Setting setting) {
    return setting == Setting.OPERATOR ? operator : stated.value(setting);
  }
}
