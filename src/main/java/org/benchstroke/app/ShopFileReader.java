package org.benchstroke.app;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

/** Reads shop files. Stateless. */
public final class ShopFileReader {
  /** The value of a shop file's key {@code kind}. */
  public static final String KIND = "shop";

  private static final List<String> DRAWN = List.of(".png", ".svg");

  private ShopFileReader() {}

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it; a file that it names must be there
   */
  public static ShopFile read(Path path) throws FileMistakes {
    TomlDocument document = TomlDocument.read(path);
    document.expect(KIND);
    TomlSection root = document.root();
    ShopFile shop =
        new ShopFile(
            path,
            root.text("name"),
            root.optionalTexts("address"),
            logo(root, path),
            names(root, "operators"),
            names(root, "supervisors"),
            StatedReader.read(root, path));
    root.noOtherKeys();
    document.finish();
    return shop;
  }

  private static List<String> names(TomlSection root, String key) {
    List<String> names = root.optionalTexts(key);
    Set<String> met = new HashSet<>();
    for (String name : names) {
      if (!met.add(name.toLowerCase(Locale.ROOT))) {
        root.mistake(key, "holds \"" + name + "\" twice; delete one");
      }
    }
    return names;
  }

  private static Optional<Path> logo(TomlSection root, Path shop) {
    Optional<Path> logo = StatedReader.file(root, shop, "logo");
    String name = logo.map(p -> p.toString().toLowerCase(Locale.ROOT)).orElse("");
    if (logo.isPresent() && DRAWN.stream().noneMatch(name::endsWith)) {
      root.mistake("logo", "found \"" + logo.get() + "\", allowed is a file .png or .svg");
    }
    return logo;
  }
}
