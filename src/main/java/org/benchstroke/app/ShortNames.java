package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;

/**
 * Bench, unit type and procedure files by their short names: {@code quarter-turn-15s} is the file
 * {@code quarter-turn-15s.toml} of that kind in one of the stated folders, not in folders within.
 * Immutable.
 *
 * @param folders that are searched; a file that lies in two of them is two files
 */
record ShortNames(List<Path> folders) {
  private static final String ENDING = ".toml";
  private static final int MOST_TOLD = 20;

  ShortNames {
    folders = List.copyOf(folders);
  }

  /**
   * The file that a person named: a path, if there is such a file or the text looks like one; else
   * by its short name.
   *
   * @param base what a path begins at
   * @throws WrongRequest if no file, or more than one, has the short name
   */
  Path file(Setting setting, String text, Path base) throws WrongRequest {
    Path path = path(setting, text, base);
    if (text.endsWith(ENDING) || path(setting, text, Path.of("")).getNameCount() > 1) {
      return path;
    }
    return Files.isRegularFile(path) ? path : found(setting, text);
  }

  private static Path path(Setting setting, String text, Path base) throws WrongRequest {
    try {
      return base.resolve(text).normalize();
    } catch (InvalidPathException e) {
      throw new WrongRequest(
          setting.option() + ": \"" + text + "\" is not the name of a file: " + e.getReason());
    }
  }

  private Path found(Setting setting, String name) throws WrongRequest {
    Map<Path, Path> files = new LinkedHashMap<>();
    for (Path folder : folders) {
      Path file = folder.resolve(name + ENDING);
      if (is(setting.kind(), file)) {
        files.putIfAbsent(real(file), file);
      }
    }
    if (files.size() == 1) {
      return files.values().iterator().next();
    }
    if (files.isEmpty()) {
      throw new WrongRequest(none(setting, name));
    }
    throw new WrongRequest(
        setting.option()
            + ": \""
            + name
            + "\" is the short name of several files: "
            + files.values().stream().map(Path::toString).collect(Collectors.joining(", "))
            + "; name one with its folder");
  }

  private String none(Setting setting, String name) {
    String what = setting.option() + ": there is no file \"" + name + "\"";
    if (folders.isEmpty()) {
      return what
          + ", and no folders are stated in which it could be a short name; name the file, or state"
          + " \"folders\" in a user file or a shop file";
    }
    String where = folders.stream().map(Path::toString).collect(Collectors.joining(", "));
    List<String> known = known(setting.kind());
    String others =
        known.isEmpty() ? "none is there" : "there are " + String.join(", ", told(known));
    return what
        + ", and no "
        + setting.kind()
        + " file of this short name in "
        + where
        + "; "
        + others;
  }

  private static List<String> told(List<String> known) {
    List<String> told = new ArrayList<>(known.subList(0, Math.min(known.size(), MOST_TOLD)));
    if (known.size() > MOST_TOLD) {
      told.add("and " + (known.size() - MOST_TOLD) + " more");
    }
    return told;
  }

  /** The short names of all files of a kind. */
  private List<String> known(String kind) {
    TreeSet<String> names = new TreeSet<>();
    for (Path folder : folders) {
      try (Stream<Path> files = Files.list(folder)) {
        files
            .filter(file -> file.toString().endsWith(ENDING) && is(kind, file))
            .map(file -> file.getFileName().toString())
            .map(file -> file.substring(0, file.length() - ENDING.length()))
            .forEach(names::add);
      } catch (IOException e) {
        // A folder that can't be listed shows no names; the message names the folder.
      }
    }
    return List.copyOf(names);
  }

  private static boolean is(String kind, Path file) {
    if (!Files.isRegularFile(file)) {
      return false;
    }
    try {
      Optional<Object> found = TomlDocument.read(file).root().optional("kind");
      return found.filter(kind::equals).isPresent();
    } catch (FileMistakes e) {
      return false;
    }
  }

  private static Path real(Path file) {
    try {
      return file.toRealPath();
    } catch (IOException e) {
      return file.toAbsolutePath().normalize();
    }
  }
}
