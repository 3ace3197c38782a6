package org.benchstroke.core.toml;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.tomlj.TomlArray;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;

/**
 * One table of a TOML file. Each getter notes a mistake where the file is wrong and then returns a
 * harmless value of its range, so that the reading goes on and finds the next mistake; the
 * document's {@link TomlDocument#finish()} keeps such values from ever being used. One thread.
 */
public final class TomlSection {
  /** Far more than a bench has instruments or a procedure tests. */
  private static final int MOST_TABLES = 200;

  /** Far more than a list of points or words has. */
  private static final int MOST_ITEMS = 1000;

  private static final int LONGEST_TEXT = 2000;

  /** Of what was found, a message shows so many characters. */
  private static final int LONGEST_SHOWN = 60;

  private final TomlDocument document;
  private final TomlTable table;
  private final String path;
  private final int line;
  private final Set<String> asked = new TreeSet<>();

  TomlSection(TomlDocument document, TomlTable table, String path, int line) {
    this.document = document;
    this.table = table;
    this.path = path;
    this.line = line;
  }

  /** Whether the key is there; it then counts as known. */
  public boolean has(String key) {
    asked.add(key);
    return table.contains(List.of(key));
  }

  /** A required text, not blank. */
  public String text(String key) {
    return required(key, "a text in quotes").map(value -> asText(key, value)).orElse("");
  }

  /** A text that may be left out. */
  public Optional<String> optionalText(String key) {
    return optional(key).map(value -> asText(key, value));
  }

  /** A text that may be left out, with the blanks and controls at its ends. */
  public Optional<String> optionalRaw(String key) {
    Optional<Object> found = optional(key);
    if (found.isPresent() && !(found.get() instanceof String)) {
      wrong(key, found.get(), "a text in quotes");
    }
    return found.filter(String.class::isInstance).map(String.class::cast);
  }

  /** A list of texts that may be left out; none is blank. */
  public List<String> optionalTexts(String key) {
    List<String> texts = new ArrayList<>();
    if (has(key)) {
      for (Object found : list(key, "a list of texts in quotes")) {
        texts.add(asText(key, found));
      }
    }
    return texts;
  }

  /** A required number within low..high; {@link Double#MIN_NORMAL} means above 0. */
  public double number(String key, double low, double high, String unit) {
    return required(key, "a number, " + range(low, high, unit))
        .map(value -> asNumber(key, value, low, high, unit))
        .orElse(low);
  }

  /** A number within low..high that may be left out. */
  public OptionalDouble optionalNumber(String key, double low, double high, String unit) {
    return optional(key)
        .map(value -> OptionalDouble.of(asNumber(key, value, low, high, unit)))
        .orElse(OptionalDouble.empty());
  }

  /** A required whole number within low..high. */
  public int integer(String key, int low, int high) {
    Optional<Object> value = required(key, "a whole number, " + low + " to " + high);
    if (value.isEmpty()) {
      return low;
    }
    if (value.get() instanceof Long number && number >= low && number <= high) {
      return number.intValue();
    }
    wrong(key, value.get(), "a whole number, " + low + " to " + high);
    return low;
  }

  /** A whole number that may be left out. */
  public int integer(String key, int low, int high, int otherwise) {
    return has(key) ? integer(key, low, high) : otherwise;
  }

  /** A required day, written 2026-03-31 without quotes. */
  public LocalDate date(String key) {
    String allowed = "a day like 2026-03-31, without quotes";
    Optional<Object> value = required(key, allowed);
    if (value.isPresent() && value.get() instanceof LocalDate day) {
      return day;
    }
    value.ifPresent(found -> wrong(key, found, allowed));
    return LocalDate.EPOCH;
  }

  /** A required word out of several. */
  public <T> T choice(String key, Map<String, T> choices) {
    Optional<Object> value = required(key, oneOf(choices.keySet()));
    return value
        .map(found -> asChoice(key, found, choices))
        .orElseGet(() -> choices.values().iterator().next());
  }

  /** A word out of several that may be left out. */
  public <T> Optional<T> optionalChoice(String key, Map<String, T> choices) {
    return optional(key).map(found -> asChoice(key, found, choices));
  }

  /**
   * A required list of words out of several, at least one. A wrong word is noted and left out:
   * another in its place would make mistakes that nobody made.
   */
  public <T> List<T> choices(String key, Map<String, T> choices) {
    List<T> chosen = new ArrayList<>();
    for (Object found : list(key, "a list of " + oneOf(choices.keySet()))) {
      T value = asChoice(key, found, choices);
      if (found instanceof String word && choices.containsKey(word)) {
        if (chosen.contains(value)) {
          mistake(key, "holds \"" + word + "\" twice; delete one");
        }
        chosen.add(value);
      }
    }
    return chosen;
  }

  /** A required list of numbers within low..high, at least one. */
  public List<Double> numbers(String key, double low, double high, String unit) {
    List<Double> numbers = new ArrayList<>();
    for (Object found : list(key, "a list of numbers, " + range(low, high, unit))) {
      numbers.add(asNumber(key, found, low, high, unit));
    }
    return numbers;
  }

  /** A required table. */
  public TomlSection section(String key) {
    Optional<Object> value = required(key, "a table [" + full(key) + "]");
    if (value.isPresent() && value.get() instanceof TomlTable inner) {
      return new TomlSection(document, inner, full(key), lineOf(key));
    }
    value.ifPresent(found -> wrong(key, found, "a table [" + full(key) + "]"));
    return new TomlSection(document, org.tomlj.Toml.parse(""), full(key), lineOf(key));
  }

  /** A table that may be left out. */
  public Optional<TomlSection> optionalSection(String key) {
    return has(key) ? Optional.of(section(key)) : Optional.empty();
  }

  /** A required list of tables, [[key]], at least one. */
  public List<TomlSection> sections(String key) {
    String allowed = "tables [[" + full(key) + "]], at least one";
    List<TomlSection> sections = new ArrayList<>();
    Optional<Object> value = required(key, allowed);
    if (value.isPresent() && value.get() instanceof TomlArray array && array.size() > 0) {
      for (int i = 0; i < atMost(key, array, MOST_TABLES); i++) {
        if (array.get(i) instanceof TomlTable inner) {
          int at = array.inputPositionOf(i).line();
          sections.add(new TomlSection(document, inner, full(key) + "[" + (i + 1) + "]", at));
        } else {
          wrong(key, array.get(i), allowed);
        }
      }
    } else {
      value.ifPresent(found -> wrong(key, found, allowed));
    }
    return sections;
  }

  /** The tables of a list, if that is what the key holds; nothing is noted. */
  public List<TomlSection> tables(String key) {
    List<TomlSection> sections = new ArrayList<>();
    if (optional(key).orElse("") instanceof TomlArray array) {
      for (int i = 0; i < Math.min(array.size(), MOST_TABLES); i++) {
        if (array.get(i) instanceof TomlTable inner) {
          int at = array.inputPositionOf(i).line();
          sections.add(new TomlSection(document, inner, full(key) + "[" + (i + 1) + "]", at));
        }
      }
    }
    return sections;
  }

  /** The value as it stands, whatever its type; empty if it is not there. */
  public Optional<Object> optional(String key) {
    return has(key) ? Optional.ofNullable(table.get(List.of(key))) : Optional.empty();
  }

  /** The keys that are there. */
  public Set<String> keys() {
    return new TreeSet<>(table.keySet());
  }

  /**
   * The line of the key, or of this table if the key is missing; for a mistake that shows later.
   */
  public int line(String key) {
    return lineOf(key);
  }

  /** Notes a mistake at the key, or at this table if the key is empty or missing. */
  public void mistake(String key, String message) {
    document.add(lineOf(key), key.isEmpty() ? path : full(key), message);
  }

  /** To be called when all keys have been asked for: any other key is a mistake. */
  public void noOtherKeys() {
    for (String key : keys()) {
      if (!asked.contains(key)) {
        mistake(key, "is not known here" + nearest(key) + "; known: " + String.join(", ", asked));
      }
    }
  }

  private Optional<Object> required(String key, String allowed) {
    Optional<Object> value = optional(key);
    if (value.isEmpty()) {
      document.add(line, full(key), "is missing; write " + allowed);
    }
    return value;
  }

  private List<Object> list(String key, String allowed) {
    List<Object> items = new ArrayList<>();
    Optional<Object> value = required(key, allowed);
    if (value.isPresent() && value.get() instanceof TomlArray array && array.size() > 0) {
      for (int i = 0; i < atMost(key, array, MOST_ITEMS); i++) {
        items.add(array.get(i));
      }
    } else {
      value.ifPresent(found -> wrong(key, found, allowed));
    }
    return items;
  }

  /** How many items of a list are read: too many are a mistake, and not looked at one by one. */
  private int atMost(String key, TomlArray array, int most) {
    if (array.size() > most) {
      mistake(key, "holds " + array.size() + ", allowed are at most " + most);
    }
    return Math.min(array.size(), most);
  }

  private String asText(String key, Object value) {
    if (value instanceof String text && !text.isBlank()) {
      if (text.length() > LONGEST_TEXT) {
        mistake(key, "is longer than " + LONGEST_TEXT + " characters");
      }
      return text.strip();
    }
    wrong(key, value, "a text in quotes, not blank");
    return "";
  }

  private double asNumber(String key, Object value, double low, double high, String unit) {
    if (value instanceof Number number) {
      double found = number.doubleValue();
      if (Double.isFinite(found) && found >= low && found <= high) {
        return found + 0.0; // -0 is 0
      }
    }
    wrong(key, value, "a number, " + range(low, high, unit));
    return value instanceof Number number && number.doubleValue() > high ? high : low;
  }

  private <T> T asChoice(String key, Object value, Map<String, T> choices) {
    if (value instanceof String word && choices.containsKey(word)) {
      return choices.get(word);
    }
    wrong(key, value, oneOf(choices.keySet()));
    return choices.values().iterator().next();
  }

  /** Notes that what was found at the key is not what is allowed there. */
  public void wrong(String key, Object found, String allowed) {
    mistake(key, "found " + shown(found) + ", allowed is " + allowed);
  }

  private static String shown(Object found) {
    if (found instanceof String text) {
      return "\"" + cut(text) + "\"";
    }
    if (found instanceof TomlTable) {
      return "a table";
    }
    return found instanceof TomlArray ? "a list" : cut(String.valueOf(found));
  }

  private static String cut(String text) {
    return text.length() <= LONGEST_SHOWN ? text : text.substring(0, LONGEST_SHOWN) + "…";
  }

  private static String range(double low, double high, String unit) {
    String least = low == Double.MIN_NORMAL ? "above 0" : Numbers.plain(low);
    String from = Double.isInfinite(low) ? "any" : least;
    String to = Double.isInfinite(high) ? " or more" : " to " + Numbers.plain(high);
    return from + to + (unit.isEmpty() ? "" : " " + unit);
  }

  private static String oneOf(Set<String> words) {
    return words.stream().map(w -> "\"" + w + "\"").collect(Collectors.joining(" or "));
  }

  private String nearest(String key) {
    return asked.stream()
        .filter(known -> key.length() <= 2 * LONGEST_SHOWN)
        .filter(known -> distance(known, key) <= Math.max(2, key.length() / 4))
        .min((a, b) -> Integer.compare(distance(a, key), distance(b, key)))
        .map(known -> "; did you mean \"" + known + "\"")
        .orElse("");
  }

  /** Levenshtein's distance: how many letters must change. */
  private static int distance(String a, String b) {
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      row[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int diagonal = row[0];
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = diagonal + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
        diagonal = row[j];
        row[j] = Math.min(change, Math.min(row[j], row[j - 1]) + 1);
      }
    }
    return row[b.length()];
  }

  private String full(String key) {
    return path.isEmpty() ? cut(key) : path + "." + cut(key);
  }

  private int lineOf(String key) {
    TomlPosition position = key.isEmpty() ? null : table.inputPositionOf(List.of(key));
    return position == null ? line : position.line();
  }
}
