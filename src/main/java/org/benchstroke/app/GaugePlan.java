package org.benchstroke.app;

import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;

/**
 * Who measures which unit when, in a study of a gauge. Each repeat is a round of its own in a
 * random order, so that warming up or a tired hand falls on nobody alone. Immutable.
 *
 * @param begun runs before it are not of the study
 * @param seed of the random order
 * @param nested whether each operator has units of their own
 * @param turns in their order
 */
public record GaugePlan(Instant begun, long seed, boolean nested, List<Turn> turns) {
  /** The value of a plan's key {@code kind}. */
  public static final String KIND = "gauge plan";

  /** The fewest and the most of units, operators and repeats. */
  public static final int FEWEST = 2;

  public static final int MOST = 100;

  public GaugePlan {
    turns = List.copyOf(turns);
  }

  /**
   * One run.
   *
   * @param unit serial number
   * @param operator who runs it
   */
  public record Turn(String unit, String operator) {}

  /** A new plan in which every operator measures every unit. */
  public static GaugePlan crossed(
      Instant begun, List<String> units, List<String> operators, int repeats, long seed) {
    List<Turn> round = new ArrayList<>();
    units.forEach(unit -> operators.forEach(operator -> round.add(new Turn(unit, operator))));
    return of(begun, round, repeats, seed, false);
  }

  /**
   * A new plan in which the units are dealt out at random.
   *
   * @param units as many for each operator
   */
  public static GaugePlan nested(
      Instant begun, List<String> units, List<String> operators, int repeats, long seed) {
    List<String> dealt = new ArrayList<>(units);
    Collections.shuffle(dealt, new Random(seed));
    List<Turn> round = new ArrayList<>();
    for (int i = 0; i < dealt.size(); i++) {
      round.add(new Turn(dealt.get(i), operators.get(i % operators.size())));
    }
    return of(begun, round, repeats, seed, true);
  }

  private static GaugePlan of(
      Instant begun, List<Turn> round, int repeats, long seed, boolean nested) {
    Random random = new Random(seed);
    List<Turn> turns = new ArrayList<>();
    for (int i = 0; i < repeats; i++) {
      List<Turn> mixed = new ArrayList<>(round);
      Collections.shuffle(mixed, random);
      turns.addAll(mixed);
    }
    return new GaugePlan(begun, seed, nested, turns);
  }

  /** The units, in the order in which they first come. */
  public Set<String> units() {
    Set<String> units = new LinkedHashSet<>();
    turns.forEach(turn -> units.add(turn.unit()));
    return units;
  }

  /**
   * Whose turn it is after these runs, by whatever order they were made; empty when all is done.
   */
  public Optional<Turn> next(List<Turn> done) {
    Map<Turn, Integer> left = counts(done);
    for (Turn turn : turns) {
      if (left.merge(turn, -1, Integer::sum) < 0) {
        return Optional.of(turn);
      }
    }
    return Optional.empty();
  }

  /** How often each turn is wanted. */
  public static Map<Turn, Integer> counts(List<Turn> turns) {
    Map<Turn, Integer> counts = new HashMap<>();
    turns.forEach(turn -> counts.merge(turn, 1, Integer::sum));
    return counts;
  }

  /** As a file. */
  public String toml() {
    StringBuilder text = new StringBuilder();
    text.append("kind = \"").append(KIND).append("\"\nformat = 1\n");
    text.append("begun = \"").append(begun).append("\"\n");
    text.append("seed = \"").append(seed).append("\"\n");
    text.append("design = \"").append(nested ? "nested" : "crossed").append("\"\n");
    for (Turn turn : turns) {
      text.append("\n[[turn]]\n");
      text.append("unit = ").append(quoted(turn.unit())).append('\n');
      text.append("operator = ").append(quoted(turn.operator())).append('\n');
    }
    return text.toString();
  }

  /** A basic string of TOML; control characters were refused before. */
  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  /**
   * Reads a plan.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static GaugePlan read(TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    String begun = root.text("begun");
    String seed = root.text("seed");
    boolean nested = root.choice("design", Map.of("nested", true, "crossed", false));
    List<Turn> turns = new ArrayList<>();
    for (TomlSection turn : root.sections("turn")) {
      turns.add(new Turn(turn.text("unit").strip(), turn.text("operator").strip()));
      turn.noOtherKeys();
    }
    root.noOtherKeys();
    Instant instant = instant(root, begun);
    long number = number(root, seed);
    document.finish();
    return new GaugePlan(instant, number, nested, turns);
  }

  private static Instant instant(TomlSection root, String text) {
    try {
      return Instant.parse(text);
    } catch (DateTimeException e) {
      root.mistake("begun", "found \"" + text + "\", allowed is a time as 2026-06-01T08:15:00Z");
      return Instant.EPOCH;
    }
  }

  private static long number(TomlSection root, String text) {
    try {
      return Long.parseLong(text.strip());
    } catch (NumberFormatException e) {
      root.mistake("seed", "found \"" + text + "\", allowed is a whole number as text");
      return 0;
    }
  }
}
