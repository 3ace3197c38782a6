package org.benchstroke.app;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.PaperSize;

/** Reads the keys that a user file and a shop file have in common. For one thread. */
final class StatedReader {
  private static final String SERVER = "postgresql://";

  private final TomlSection root;
  private final Path file;
  private final Map<Setting, String> values = new EnumMap<>(Setting.class);

  private StatedReader(TomlSection root, Path file) {
    this.root = root;
    this.file = file;
  }

  /**
   * Reads them.
   *
   * @param file where they stand: what they name is found from its folder
   */
  static Stated read(TomlSection root, Path file) {
    return new StatedReader(root, file).read();
  }

  private Stated read() {
    List<Path> folders = folders();
    for (Setting setting : Setting.values()) {
      if (setting.namesFile()) {
        root.optionalText(setting.key()).ifPresent(text -> named(setting, text, folders));
      }
    }
    place("records").ifPresent(folder -> values.put(Setting.RECORDS, folder.toString()));
    archive().ifPresent(text -> values.put(Setting.ARCHIVE, text));
    root.optionalChoice("paper", words(List.of(PaperSize.values()), PaperSize::key))
        .ifPresent(paper -> values.put(Setting.PAPER, paper.key()));
    root.optionalChoice("language", words(List.of(Language.values()), Language::key))
        .ifPresent(language -> values.put(Setting.LANGUAGE, language.key()));
    return new Stated(values, folders);
  }

  private List<Path> folders() {
    List<Path> folders = new ArrayList<>();
    for (String text : root.optionalTexts("folders")) {
      Optional<Path> folder = place("folders", text);
      if (folder.isPresent() && !Files.isDirectory(folder.get())) {
        root.mistake("folders", "there is no folder " + folder.get() + begins());
      }
      folder.ifPresent(folders::add);
    }
    return folders;
  }

  private void named(Setting setting, String text, List<Path> folders) {
    try {
      Path base = Optional.ofNullable(file.getParent()).orElse(Path.of(""));
      Path found = new ShortNames(folders).file(setting, text, base);
      if (Files.isRegularFile(found)) {
        values.put(setting, found.toString());
      } else {
        root.mistake(setting.key(), "there is no file " + found + begins());
      }
    } catch (WrongRequest e) {
      root.mistake(setting.key(), e.getMessage().replaceFirst("^\\S+: ", ""));
    }
  }

  /** A file that must be there. */
  Optional<Path> file(String key) {
    Optional<Path> found = place(key);
    if (found.isPresent() && !Files.isRegularFile(found.get())) {
      root.mistake(key, "there is no file " + found.get() + begins());
    }
    return found;
  }

  /** A file that must be there. */
  static Optional<Path> file(TomlSection root, Path file, String key) {
    return new StatedReader(root, file).file(key);
  }

  private String begins() {
    return "; a name begins at the folder of " + file.getFileName();
  }

  private Optional<Path> place(String key) {
    return root.optionalText(key).flatMap(text -> place(key, text));
  }

  private Optional<Path> place(String key, String text) {
    try {
      return Optional.of(file.resolveSibling(text).normalize());
    } catch (InvalidPathException e) {
      root.mistake(key, "is not the name of a file: " + e.getReason());
      return Optional.empty();
    }
  }

  /** A file's name is found from here; the address of a server stays as it is. */
  private Optional<String> archive() {
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
    return place("archive", text.get()).map(Path::toString);
  }

  private static <T> Map<String, T> words(List<T> all, Function<T, String> key) {
    Map<String, T> words = new LinkedHashMap<>();
    all.forEach(each -> words.put(key.apply(each), each));
    return words;
  }
}
