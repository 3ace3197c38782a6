package org.benchstroke.io.bench;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import org.benchstroke.io.instrument.Role;

/** The words that a file may use. Stateless. */
final class Words {
  private Words() {}

  /** The values by the word for each, in their order. */
  static <T> Map<String, T> of(T[] values, Function<T, String> word) {
    Map<String, T> words = new LinkedHashMap<>();
    for (T value : values) {
      words.put(word.apply(value), value);
    }
    return words;
  }

  /** The name of the table that holds a role's channel: "signal_source". */
  static String table(Role role) {
    return role.key().replace(' ', '_');
  }
}
