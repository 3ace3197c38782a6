package org.benchstroke.practice;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import org.benchstroke.model.Noise;
import org.benchstroke.quantity.Numbers;

/**
 * A simulation file that is being drawn: its keys with their values, and the ranges that they were
 * drawn from. The same seed draws the same file. One thread.
 */
final class UnitDraft {
  private final Severity severity;
  private final Noise noise;
  private final Map<String, String> values = new TreeMap<>();
  private final Map<String, String> ranges = new LinkedHashMap<>();

  UnitDraft(Severity severity, long seed) {
    this.severity = severity;
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

  /**
   * A size of the fault: barely above the limit it lies between the first two edges, moderate
   * between the next two, clear between the last two.
   */
  double size(String key, double barely, double moderate, double clear, double most) {
    ranges.put(
        key,
        Numbers.plain(barely)
            + " | "
            + Numbers.plain(moderate)
            + " | "
            + Numbers.plain(clear)
            + " | "
            + Numbers.plain(most));
    return switch (severity) {
      case BARELY -> between(barely, moderate);
      case MODERATE -> between(moderate, clear);
      case CLEAR -> between(clear, most);
    };
  }

  void set(String key, double value) {
    values.put(key, Numbers.plain(Math.rint(value * 1e4) / 1e4));
  }

  void word(String key, String word) {
    values.put(key, '"' + word + '"');
  }

  /** Sets the key to a size of the fault. */
  void grow(String key, double barely, double moderate, double clear, double most) {
    set(key, size(key, barely, moderate, clear, most));
  }

  /** Likewise with either sign. */
  void growEitherWay(String key, double barely, double moderate, double clear, double most) {
    set(key, sign() * size(key, barely, moderate, clear, most));
  }

  /** Sets the key to a value that any sound unit may have. */
  void vary(String key, double low, double high) {
    set(key, between(low, high));
  }

  /** What was drawn as a size, and from which edges: barely | moderate | clear | most. */
  Map<String, String> ranges() {
    return ranges;
  }

  /** The tables of the file. */
  String tables() {
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
