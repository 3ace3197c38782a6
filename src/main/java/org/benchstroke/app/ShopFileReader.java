package org.benchstroke.app;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;

/** Reads shop files. Stateless. */
public final class ShopFileReader {
  /** The value of a shop file's key {@code kind}. */
  public static final String KIND = "shop";

  private static final Map<String, PaperSize> PAPERS = papers();
  private static final Map<String, Language> LANGUAGES = languages();
  private static final List<String> DRAWN = List.of(".png", ".svg");
  private static final String SERVER = "postgresql://";

  private ShopFileReader() {}

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it; a file that it names must be there
   */
  public static ShopFile read(Path path) throws FileMistakes {
    return read(path, TomlDocument.read(path));
  }

  /**
   * Reads a document that has been opened.
   *
   * @param path where it is: the files that it names are found from there
   * @throws FileMistakes with every mistake in it
   */
  static ShopFile read(Path path, TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    ShopFile shop =
        new ShopFile(
            root.text("name"),
            root.optionalTexts("address"),
            logo(root, path),
            names(root, "operators"),
            names(root, "supervisors"),
            file(root, "bench", path),
            file(root, "unit_type", path),
            file(root, "procedure", path),
            place(root, "records", path),
            archive(root, path),
            root.optionalChoice("paper", PAPERS).orElse(PaperSize.A4),
            root.optionalChoice("language", LANGUAGES).orElse(Language.ENGLISH));
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
    Optional<Path> logo = file(root, "logo", shop);
    String name = logo.map(p -> p.toString().toLowerCase(Locale.ROOT)).orElse("");
    if (logo.isPresent() && DRAWN.stream().noneMatch(name::endsWith)) {
      root.mistake("logo", "found \"" + logo.get() + "\", allowed is a file .png or .svg");
    }
    return logo;
  }

  private static Optional<Path> file(TomlSection root, String key, Path shop) {
    Optional<Path> file = place(root, key, shop);
    if (file.isPresent() && !Files.isRegularFile(file.get())) {
      root.mistake(
          key, "there is no file " + file.get() + "; a name begins at the shop file's folder");
    }
    return file;
  }

  private static Optional<Path> place(TomlSection root, String key, Path shop) {
    return root.optionalText(key).flatMap(text -> place(root, key, shop, text));
  }

  private static Optional<Path> place(TomlSection root, String key, Path shop, String text) {
    try {
      return Optional.of(shop.resolveSibling(text).normalize());
    } catch (InvalidPathException e) {
      root.mistake(key, "is not the name of a file: " + e.getReason());
      return Optional.empty();
    }
  }

  /** A file's name is found from the shop file; the address of a server stays as it is. */
  private static Optional<String> archive(TomlSection root, Path shop) {
    Optional<String> text = root.optionalText("archive");
    if (text.isEmpty() || text.get().startsWith(SERVER)) {
      return text;
    }
    if (text.get().contains("://")) {
      String scheme = text.get().substring(0, text.get().indexOf("://") + 3);
      root.mistake(
          "archive",
          "begins with " + scheme + "; allowed is a file, or an address " + SERVER + "…");
      return Optional.empty();
    }
    return place(root, "archive", shop, text.get()).map(Path::toString);
  }

  private static Map<String, PaperSize> papers() {
    Map<String, PaperSize> words = new LinkedHashMap<>();
    for (PaperSize paper : PaperSize.values()) {
      words.put(paper.key(), paper);
    }
    return words;
  }

  private static Map<String, Language> languages() {
    Map<String, Language> words = new LinkedHashMap<>();
    for (Language language : Language.values()) {
      words.put(language.key(), language);
    }
    return words;
  }
}
