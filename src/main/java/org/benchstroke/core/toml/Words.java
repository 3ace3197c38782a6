package org.benchstroke.core.toml;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;

/** The words that a file may use. Stateless. */
public final class Words {
  private Words() {}

  /** The values by the word for each, in their order. */
  public static <T> Map<String, T> of(T[] values, Function<T, String> word) {
    Map<String, T> words = new LinkedHashMap<>();
    for (T value : values) {
      words.put(word.apply(value), value);
    }
    return words;
  }
}
