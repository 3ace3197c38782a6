package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.simulator.LinkFault.Kind;
import org.benchstroke.simulator.LinkFault.When;

/** Reads the tables {@code [[fault]]} of a simulation file. Stateless. */
final class LinkFaultReader {
  private static final String TABLE = "fault";
  private static final int MOST_EXCHANGES = 1_000_000_000;
  private static final double LONGEST_SECONDS = 1_000_000.0;
  private static final Map<String, Kind> KINDS = kinds();

  private LinkFaultReader() {}

  /** The faults in the file's order; none if it has none. */
  static List<LinkFault> read(String file, TomlSection root) {
    List<LinkFault> faults = new ArrayList<>();
    List<TomlSection> tables = root.has(TABLE) ? root.sections(TABLE) : List.of();
    for (TomlSection table : tables) {
      faults.add(fault(file, table, faults.size() + 1));
      table.noOtherKeys();
    }
    return faults;
  }

  private static LinkFault fault(String file, TomlSection table, int number) {
    String on = table.text("on");
    Kind kind = table.choice("kind", KINDS);
    When when = when(table);
    if (kind == Kind.UNPLUG && !(when instanceof When.Span)) {
      table.mistake("kind", "\"unplug\" lasts for a time; write from_s and for_s");
    }
    return new LinkFault(file, number, table.line("on"), on, kind, delayNanos(table, kind), when);
  }

  private static long delayNanos(TomlSection table, Kind kind) {
    long late = ownNanos(table, kind, Kind.LATE, "late_ms", "by how much the answer is late");
    String between = "how long it is from one byte to the next";
    return late + ownNanos(table, kind, Kind.SLOW_BYTES, "byte_ms", between);
  }

  /** A delay that one kind needs and no other may have; 0 if there is none. */
  private static long ownNanos(
      TomlSection table, Kind kind, Kind owner, String key, String meaning) {
    OptionalDouble millis = table.optionalNumber(key, 1, 60_000, "ms");
    if (kind == owner && millis.isEmpty()) {
      table.mistake(key, "is missing; write " + meaning + ", 1 to 60000 ms");
    } else if (kind != owner && millis.isPresent()) {
      table.mistake(key, "belongs to kind = \"" + owner.word() + "\"; delete it");
    }
    return Math.round(millis.orElse(0.0) * 1e6);
  }

  private static When when(TomlSection table) {
    int first = table.integer("exchange", 1, MOST_EXCHANGES, 0);
    int count = table.integer("exchanges", 1, MOST_EXCHANGES, 0);
    OptionalDouble from = table.optionalNumber("from_s", 0, LONGEST_SECONDS, "s");
    OptionalDouble lasts = table.optionalNumber("for_s", 0.001, LONGEST_SECONDS, "s");
    OptionalDouble probability = table.optionalNumber("probability", 0, 1, "");
    int ways = (first > 0 ? 1 : 0) + (from.isPresent() ? 1 : 0) + (probability.isPresent() ? 1 : 0);
    if (ways != 1) {
      table.mistake(
          "", "found " + ways + " of exchange, from_s and probability, allowed is one of them");
    }
    if (count > 0 && first == 0) {
      table.mistake("exchanges", "needs exchange, the number of the first one");
    }
    if (from.isPresent() != lasts.isPresent()) {
      table.mistake(from.isPresent() ? "from_s" : "for_s", "from_s and for_s need each other");
    }
    if (first > 0) {
      return new When.Exchanges(first, Math.max(1, count));
    }
    return probability.isPresent()
        ? new When.Chance(probability.getAsDouble())
        : new When.Span(nanos(from), nanos(lasts));
  }

  private static long nanos(OptionalDouble seconds) {
    return Math.round(seconds.orElse(0.0) * 1e9);
  }

  /** In the order in which messages name them. */
  private static Map<String, Kind> kinds() {
    Map<String, Kind> words = new LinkedHashMap<>();
    for (Kind kind : Kind.values()) {
      words.put(kind.word(), kind);
    }
    return words;
  }
}
