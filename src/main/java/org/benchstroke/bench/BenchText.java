package org.benchstroke.bench;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

/**
 * A bench file as one text, with the descriptions of instruments that it uses put in their places:
 * all else reads, records and judges that text, and needs no other file. Each line still knows the
 * file from which it is. Immutable.
 *
 * @param file the bench file, as it was named
 * @param text the whole
 * @param lines from which file and line each line of it is
 */
public record BenchText(String file, String text, List<TomlDocument.Origin> lines) {
  static final String USE = "use";

  public BenchText {
    lines = List.copyOf(lines);
  }

  /**
   * Reads a bench file and what it uses.
   *
   * @throws FileMistakes if one of them can't be read, or a key stands in both
   */
  public static BenchText of(Path path) throws FileMistakes {
    String text = TomlDocument.textOf(path);
    TomlDocument document = TomlDocument.parse(path.toString(), text);
    List<Block> blocks = blocks(document, path);
    document.finish();
    return new Assembly(path.toString(), text, blocks).whole();
  }

  /** The document, whose mistakes are told at the lines of their own files. */
  public TomlDocument document() throws FileMistakes {
    return TomlDocument.parse(file, text, lines);
  }

  /**
   * An instrument that uses a description.
   *
   * @param line where its key {@code use} stands, from 1
   */
  private record Block(int line, InstrumentText description) {}

  /** No look at what is no list of tables: whoever reads the bench file tells of that. */
  private static List<Block> blocks(TomlDocument document, Path bench) throws FileMistakes {
    List<Block> blocks = new ArrayList<>();
    if (document.root().tables("instrument").isEmpty()) {
      return blocks;
    }
    List<Mistake> mistakes = new ArrayList<>();
    for (TomlSection section : document.root().tables("instrument")) {
      Optional<String> name = section.optionalText(USE);
      if (name.isEmpty()) {
        continue;
      }
      try {
        Path file = bench.resolveSibling(name.get()).normalize();
        InstrumentText description = InstrumentText.read(file);
        Set<String> both = new TreeSet<>(section.keys());
        both.retainAll(description.keys());
        both.removeAll(description.tables());
        for (String key : both) {
          section.mistake(key, "stands here and in " + file + "; let it stand in one of them");
        }
        blocks.add(new Block(section.line(USE), description));
      } catch (InvalidPathException e) {
        section.mistake(USE, "is not the name of a file: " + e.getReason());
      } catch (FileMistakes e) {
        mistakes.addAll(e.mistakes());
      }
    }
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
    return blocks;
  }

  /** Puts them together, line by line. */
  private static final class Assembly {
    private final String file;
    private final List<String> given;
    private final List<Block> blocks;
    private final StringBuilder text = new StringBuilder();
    private final List<TomlDocument.Origin> lines = new ArrayList<>();

    Assembly(String file, String text, List<Block> blocks) {
      this.file = file;
      this.given = text.lines().toList();
      this.blocks = blocks;
    }

    BenchText whole() {
      int next = 0;
      for (Block block : blocks) {
        int end = endOfKeys(block.line());
        while (next < end) {
          String line = given.get(next);
          next++;
          // What stands in its place follows; the name stays for whoever reads the whole.
          add(next == block.line() ? "# " + line : line, file, next);
        }
        InstrumentText used = block.description();
        used.lines().forEach(each -> add(each.text(), used.file(), each.number()));
      }
      while (next < given.size()) {
        next++;
        add(given.get(next - 1), file, next);
      }
      return new BenchText(file, text.toString(), lines);
    }

    private void add(String line, String from, int number) {
      text.append(line).append('\n');
      lines.add(new TomlDocument.Origin(from, number));
    }

    /** Where the keys of an instrument end: before the next header, or at the end of the file. */
    private int endOfKeys(int from) {
      int at = from;
      while (at < given.size() && !InstrumentText.isHeader(given.get(at))) {
        at++;
      }
      return at;
    }
  }
}
