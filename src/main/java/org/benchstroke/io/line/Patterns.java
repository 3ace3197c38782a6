package org.benchstroke.io.line;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import org.benchstroke.core.toml.TomlSection;

/** Reads commands and reply patterns. Stateless. */
final class Patterns {
  private static final Pattern GROUP = Pattern.compile("\\(\\?<([a-zA-Z][a-zA-Z0-9]*)>");
  private static final Pattern PLACE = Pattern.compile("\\{[A-Za-z]*:?%[^}]*\\}");
  private static final Pattern ANYTHING = Pattern.compile(".*");

  private Patterns() {}

  static Pattern required(TomlSection table, String key) {
    String text = table.text(key);
    return text.isEmpty() ? ANYTHING : compiled(table, key, text);
  }

  static Optional<Pattern> optional(TomlSection table, String key) {
    return table.optionalText(key).map(text -> compiled(table, key, text));
  }

  static Pattern compiled(TomlSection table, String key, String text) {
    try {
      return Pattern.compile(text);
    } catch (PatternSyntaxException e) {
      table.mistake(
          key,
          "\""
              + text
              + "\" is not a regular expression: "
              + e.getDescription()
              + (e.getIndex() >= 0 ? " at character " + (e.getIndex() + 1) : ""));
      return ANYTHING;
    }
  }

  /** The names of its groups, in their order. */
  static List<String> groups(Pattern pattern) {
    List<String> names = new ArrayList<>();
    Matcher matcher = GROUP.matcher(pattern.pattern());
    while (matcher.find()) {
      names.add(matcher.group(1));
    }
    return names;
  }

  /** A required command that takes no value. */
  static String command(TomlSection table, String key) {
    String text = table.text(key);
    requireCommand(table, key, text);
    return text;
  }

  static void requireCommand(TomlSection table, String key, String text) {
    requirePrintable(table, key, text);
    if (PLACE.matcher(text).find()) {
      table.mistake(key, "takes no value, but has a place for one; only set takes one");
    }
  }

  static void requirePrintable(TomlSection table, String key, String text) {
    if (text.chars().anyMatch(c -> c < ' ' || c > '~')) {
      table.mistake(key, "holds characters that are not printable ASCII; send_end ends a message");
    }
  }
}
