package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;

/**
 * A register map as TOML, with the data that it rests on. Immutable.
 *
 * @param instrument the instrument's name in the bench file
 * @param role the role whose value it is
 * @param question the points
 * @param findings what explains them; with a best map
 */
public record MapProposal(
    String instrument, Role role, MapQuestion question, MapFindings findings) {
  private static final List<String> KEYS =
      List.of("table", "address", "type", "order", "scale", "offset");

  private MapCandidate best() {
    return findings.best().orElseThrow();
  }

  /** The table of the role, with comments that say what it rests on. */
  public String toml() {
    List<String> lines = new ArrayList<>(evidence());
    lines.add("[instrument." + table() + "]");
    lines.addAll(keys());
    return String.join("\n", lines) + "\n";
  }

  /**
   * A whole bench file with this map in the place of the one that it has.
   *
   * @param benchText the bench file
   * @return empty if the file is written in a way that can't be changed line by line
   */
  public Optional<String> inFile(String benchText) {
    List<String> lines = new ArrayList<>(benchText.lines().toList());
    int block = blockOf(lines);
    int header = block < 0 ? -1 : headerAfter(lines, block);
    if (header < 0) {
      return Optional.empty();
    }
    int at = header + 1;
    while (at < lines.size() && !lines.get(at).strip().startsWith("[")) {
      if (KEYS.contains(keyOf(lines.get(at)))) {
        lines.remove(at);
      } else {
        at++;
      }
    }
    lines.addAll(header + 1, keys());
    lines.addAll(header, evidence());
    String changed = String.join("\n", lines) + "\n";
    return says(changed) ? Optional.of(changed) : Optional.empty();
  }

  /** Whether a bench file's text has this map; the proof that the change went right. */
  private boolean says(String text) {
    try {
      BenchFile file = BenchFileReader.read(TomlDocument.parse("proposal", text));
      return file.instruments().stream()
          .filter(spec -> spec.name().equals(instrument))
          .flatMap(spec -> spec.talk(ModbusSettings.class).stream())
          .flatMap(map -> Optional.ofNullable(map.registers().get(role)).stream())
          .anyMatch(best()::sameAs);
    } catch (FileMistakes e) {
      return false;
    }
  }

  private int blockOf(List<String> lines) {
    int block = -1;
    boolean top = false;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (line.startsWith("[")) {
        top = line.replaceAll("\\s", "").startsWith("[[instrument]]");
        block = i;
      } else if (top && keyOf(line).equals("name") && line.contains('"' + instrument + '"')) {
        return block;
      }
    }
    return -1;
  }

  private int headerAfter(List<String> lines, int block) {
    for (int i = block + 1; i < lines.size(); i++) {
      String line = lines.get(i).replaceAll("\\s", "");
      if (line.startsWith("[[")) {
        return -1;
      }
      if (line.startsWith("[instrument." + table() + "]")) {
        return i;
      }
    }
    return -1;
  }

  private static String keyOf(String line) {
    int equals = line.indexOf('=');
    return equals < 0 ? "" : line.substring(0, equals).strip();
  }

  private String table() {
    return role.key().replace(' ', '_');
  }

  private List<String> keys() {
    Register register = best().register();
    List<String> keys = new ArrayList<>();
    keys.add("table = \"" + register.table().key() + "\"");
    keys.add("address = " + register.address());
    keys.add("type = \"" + register.type().key() + "\"");
    if (register.type().words() > 1) {
      keys.add("order = \"" + register.order() + "\"");
    }
    keys.add("scale = " + number(register.scale()));
    keys.add("offset = " + number(register.offset()));
    return keys;
  }

  private static String number(double value) {
    String text = Numbers.plain(value);
    return text.contains(".") ? text : text + ".0";
  }

  /** What it rests on, as comments. */
  private List<String> evidence() {
    List<String> lines = new ArrayList<>();
    lines.add("# Worked out by find-map from " + question.points().size() + " known points:");
    for (int i = 0; i < question.points().size(); i++) {
      KnownPoint point = question.points().get(i);
      lines.add(
          "#   known "
              + Numbers.significant(point.value(), 5)
              + " "
              + question.unit()
              + ": "
              + best().register().table().key()
              + " "
              + question.firstAddress()
              + " ff. held "
              + hex(point.readings().get(point.readings().size() - 1))
              + ", now reads "
              + Numbers.significant(best().values().get(i), 5));
    }
    lines.add("#   " + best().words());
    for (MapCandidate tie : findings.ties()) {
      lines.add("#   not told apart by these points: " + tie.text());
    }
    return lines;
  }

  private static String hex(List<Integer> words) {
    return words.stream()
        .map(w -> String.format(Locale.ROOT, "%02X %02X", w >> 8, w & 0xFF))
        .collect(Collectors.joining(" "));
  }
}
