package org.benchstroke.core.toml;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.tomlj.Toml;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;

/**
 * A TOML file that is being read. Values come from its {@link TomlSection}s; mistakes gather here
 * and are all thrown at once by {@link #finish()}, so a person mends a file in one go. One thread.
 */
public final class TomlDocument {
  /** Ten times the longest file that has been of use. */
  private static final int MOST_BYTES = 250_000;

  private static final int MOST_KEPT = 16;

  /** Where many runs are counted, each reads the same few files: what a text says never changes. */
  private static final Map<String, TomlParseResult> KEPT = new ConcurrentHashMap<>();

  private final String file;
  private final List<Origin> lines;
  private final List<Mistake> mistakes = new ArrayList<>();
  private final TomlSection root;

  /**
   * Where a line of a text is from that was put together.
   *
   * @param file the file as it was named
   * @param line from 1
   */
  public record Origin(String file, int line) {}

  private TomlDocument(String file, TomlParseResult parsed, List<Origin> lines) {
    this.file = file;
    this.lines = lines;
    for (TomlParseError error : parsed.errors()) {
      add(error.position().line(), "", "not TOML: " + error.getMessage());
    }
    this.root = new TomlSection(this, parsed, "", 1);
  }

  /**
   * Reads a file.
   *
   * @throws FileMistakes if it can't be read or is no TOML at all
   */
  public static TomlDocument read(Path path) throws FileMistakes {
    return parse(path.toString(), textOf(path));
  }

  /**
   * The text of a file.
   *
   * @throws FileMistakes if there is no such file, or it is not UTF-8 text of a sane size
   */
  public static String textOf(Path path) throws FileMistakes {
    try {
      return GivenFile.text(GivenFile.bytes(path, MOST_BYTES));
    } catch (Unreadable e) {
      throw whole(path.toString(), e.getMessage());
    }
  }

  /**
   * Reads a text.
   *
   * @param file the name that messages give
   * @throws FileMistakes if it is no TOML: its keys would mislead
   */
  public static TomlDocument parse(String file, String text) throws FileMistakes {
    return parse(file, text, List.of());
  }

  /**
   * Reads a text that was put together of several files.
   *
   * @param lines from where each of its lines is, for the mistakes; none if all are of the file
   * @throws FileMistakes if it is no TOML: its keys would mislead
   */
  public static TomlDocument parse(String file, String text, List<Origin> lines)
      throws FileMistakes {
    if (text.length() > MOST_BYTES) {
      throw whole(file, "is too long for a file of this kind");
    }
    if (KEPT.size() >= MOST_KEPT) {
      KEPT.clear();
    }
    TomlDocument document = new TomlDocument(file, KEPT.computeIfAbsent(text, Toml::parse), lines);
    document.finish();
    return document;
  }

  public TomlSection root() {
    return root;
  }

  public String file() {
    return file;
  }

  /**
   * Checks the keys that say what kind of file this is.
   *
   * @param kind the kind that is expected, the value of the key {@code kind}
   * @throws FileMistakes if it is another, at once: the other keys are right where they belong
   */
  public void expect(String kind) throws FileMistakes {
    String found = root.text("kind");
    if (!found.isEmpty() && !found.equals(kind)) {
      root.mistake(
          "kind",
          "is \""
              + found
              + "\", but "
              + (kind.startsWith("i") ? "an " : "a ")
              + kind
              + " file was expected here");
      finish();
    }
    root.integer("format", 1, 1);
  }

  /**
   * Ends the reading.
   *
   * @throws FileMistakes if there was any mistake
   */
  public void finish() throws FileMistakes {
    if (!mistakes.isEmpty()) {
      mistakes.sort((a, b) -> Integer.compare(a.line(), b.line()));
      throw new FileMistakes(mistakes);
    }
  }

  void add(int line, String key, String message) {
    boolean elsewhere = line >= 1 && line <= lines.size();
    Origin origin = elsewhere ? lines.get(line - 1) : new Origin(file, line);
    mistakes.add(new Mistake(origin.file(), origin.line(), key, message));
  }

  private static FileMistakes whole(String file, String message) {
    return new FileMistakes(List.of(new Mistake(file, 0, "", message)));
  }
}
