package org.benchstroke.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

/**
 * The description of an instrument, in a file of its own that benches share: what its data sheet
 * and its manual say of every one of its kind. Immutable.
 *
 * @param file as it was named
 * @param keys that it states of the instrument, its tables among them
 * @param tables those of them that are tables: a bench may add to them
 * @param transcript a file with what such an instrument said, if it names one
 * @param lines that stand in the bench file's place of it
 */
record InstrumentText(
    String file,
    Set<String> keys,
    Set<String> tables,
    Optional<Path> transcript,
    List<InstrumentText.Line> lines) {
  static final String KIND = "instrument";

  /** A header of a table or of a list of tables, in a line of its own. */
  private static final Pattern HEADER =
      Pattern.compile("\\s*(\\[\\[?)\\s*([A-Za-z0-9_.\"\\s-]+?)\\s*(]]?)\\s*(#.*)?");

  /** Of the file itself, and not of the instrument. */
  private static final Set<String> OF_THE_FILE = Set.of("kind", "format", "transcript");

  /** What a bench says of the one that stands there. */
  private static final List<String> OF_THE_BENCH = List.of("name", BenchText.USE);

  InstrumentText {
    keys = Set.copyOf(keys);
    tables = Set.copyOf(tables);
    lines = List.copyOf(lines);
  }

  /** A line and its number in the file. */
  record Line(String text, int number) {}

  static boolean isHeader(String line) {
    return HEADER.matcher(line).matches();
  }

  /**
   * Reads it.
   *
   * @throws FileMistakes if it is no such file, or written so that its lines can't be taken over
   */
  static InstrumentText read(Path path) throws FileMistakes {
    String text = TomlDocument.textOf(path);
    TomlDocument document = TomlDocument.parse(path.toString(), text);
    document.expect(KIND);
    TomlSection root = document.root();
    Optional<Path> transcript = root.optionalText("transcript").map(path::resolveSibling);
    Set<String> keys = new TreeSet<>(root.keys());
    keys.removeAll(OF_THE_FILE);
    for (String key : OF_THE_BENCH) {
      if (keys.contains(key)) {
        root.mistake(key, "belongs in the bench file, where the instrument stands");
      }
    }
    Set<String> tables = new TreeSet<>();
    List<Line> lines = lines(text, tables);
    tables.retainAll(keys);
    document.finish();
    return new InstrumentText(path.toString(), keys, tables, transcript, lines);
  }

  private static List<Line> lines(String text, Set<String> tables) {
    List<Line> lines = new ArrayList<>();
    int number = 0;
    boolean top = true;
    for (String line : text.lines().toList()) {
      number++;
      var header = HEADER.matcher(line);
      if (header.matches()) {
        top = false;
        String name = header.group(2).strip();
        tables.add(name.replaceFirst("[.\\s].*", ""));
        String inBench = header.group(1) + "instrument." + name + header.group(3);
        lines.add(new Line(inBench, number));
      } else if (!(top && (isOfTheFile(line) || line.startsWith("#:schema")))) {
        lines.add(new Line(line, number));
      }
    }
    return lines;
  }

  private static boolean isOfTheFile(String line) {
    int equals = line.indexOf('=');
    return equals > 0 && OF_THE_FILE.contains(line.substring(0, equals).strip());
  }
}
