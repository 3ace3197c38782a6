package org.benchstroke.simulator.practice;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.DoubleStream;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;

/**
 * A simulation file that is being drawn: its keys with their values, and the ranges that they were
 * drawn from. The same seed draws the same file. One thread.
 */
final class UnitDraft {
  private Severity severity = Severity.CLEAR;
  private final Noise noise;
  private final Map<String, String> values = new TreeMap<>();
  private final Map<String, String> ranges = new LinkedHashMap<>();
  private final StringBuilder top = new StringBuilder();
  private final StringBuilder more = new StringBuilder();

  UnitDraft(long seed) {
    this.noise = new Noise(seed);
  }

  /** Uniform. */
  double between(double low, double high) {
    return low + (high - low) * (noise.symmetric() + 1.0) / 2.0;
  }

  /** One of so many, from 0. */
  int one(int many) {
    return Math.min(many - 1, (int) between(0.0, many));
  }

  int sign() {
    return noise.symmetric() < 0.0 ? -1 : 1;
  }

  /** From here on faults of that severity are drawn. */
  void now(Severity other) {
    severity = other;
  }

  /**
   * A size of the fault. The edges of below, barely, moderate, clear and large, and the largest;
   * each lies between its own edge and the next.
   */
  double size(String key, double... edges) {
    ranges.put(key, String.join(" | ", DoubleStream.of(edges).mapToObj(Numbers::plain).toList()));
    return switch (severity) {
      case BELOW -> between(edges[0], edges[1]);
      case BARELY -> between(edges[1], edges[2]);
      case MODERATE -> between(edges[2], edges[3]);
      case CLEAR -> between(edges[3], edges[4]);
      case LARGE -> between(edges[4], edges[5]);
      case ONCE, TWICE, THRICE -> Math.min(severity.times() * edges[4], edges[5]);
    };
  }

  void set(String key, double value) {
    values.put(key, plain(value));
  }

  void word(String key, String word) {
    values.put(key, '"' + word + '"');
  }

  /** Sets the key to a size of the fault. */
  void grow(String key, double... edges) {
    set(key, size(key, edges));
  }

  /** Likewise with either sign. */
  void growEitherWay(String key, double... edges) {
    set(key, sign() * size(key, edges));
  }

  /** Sets the key to a value that any sound unit may have. */
  void vary(String key, double low, double high) {
    set(key, between(low, high));
  }

  /** What was drawn as a size, and from which edges. */
  Map<String, String> ranges() {
    return ranges;
  }

  /** The keys that have been set, whatever for. */
  Set<String> keys() {
    return values.keySet();
  }

  /** Sets a key at the top of the file. */
  void atTop(String key, double value) {
    top.append(key).append(" = ").append(Numbers.plain(Math.rint(value))).append('\n');
  }

  /** Adds a table of which a file may have several: {@code [[fault]]}. */
  void addTable(String lines) {
    more.append('\n').append(lines);
  }

  /** A value as a file writes it, to four decimals. */
  static String plain(double value) {
    return Numbers.plain(Math.rint(value * 1e4) / 1e4);
  }

  /**
   * The text of the file.
   *
   * @param words what a reader must know, in a line
   * @param shows what the unit shows
   * @param number by which the unit is told from others
   * @param noise the seed of its noise and of its instruments' errors is made from it
   * @param unitType how the file names the unit type
   */
  String text(String words, String shows, long number, long noise, String unitType) {
    return String.format(
            Locale.ROOT,
            """
    # Invented, drawn by benchstroke. %s.
    kind = "simulation"
    format = 1
    name = "Unit %d"
    shows = "%s"
    unit_type = "%s"
    seed = %d
    angle_reference = "fitted"
    """,
            words,
            number,
            shows,
            unitType,
            Math.floorMod(noise, 1L << 31))
        + top
        + tables()
        + more;
  }

  /**
   * Reads such a text.
   *
   * @param unitType the unit type's file
   * @throws IllegalStateException if that can't be read, or a value is none that a file may have
   */
  static Simulation read(Path unitType, String text) {
    try {
      return SimulationReader.read(unitType.resolveSibling("drawn.toml"), text);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage() + "\n" + text, e);
    }
  }

  private String tables() {
    StringBuilder text = new StringBuilder();
    String table = "";
    for (Map.Entry<String, String> entry : values.entrySet()) {
      int dot = entry.getKey().indexOf('.');
      if (!entry.getKey().substring(0, dot).equals(table)) {
        table = entry.getKey().substring(0, dot);
        text.append("\n[").append(table).append("]\n");
      }
      text.append(entry.getKey().substring(dot + 1)).append(" = ").append(entry.getValue());
      text.append('\n');
    }
    return text.toString();
  }
}
