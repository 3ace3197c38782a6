package org.benchstroke.papers.sheets;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.Properties;
import java.util.Set;
import org.benchstroke.papers.Language;

/** The words of papers in one language, by their keys. Immutable, any thread. */
public final class Words {
  private final Language language;
  private final Properties words;

  private Words(Language language, Properties words) {
    this.language = language;
    this.words = words;
  }

  /** Those of a language. */
  public static Words of(Language language) {
    String file = language.key() + ".properties";
    Properties words = new Properties();
    try (InputStream in = Words.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("the program file is damaged: " + file + " is missing");
      }
      words.load(new InputStreamReader(in, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: " + file, e);
    }
    return new Words(language, words);
  }

  public Language language() {
    return language;
  }

  /**
   * The words of a key.
   *
   * @param values what stands in the places of {0}, {1} and so on
   * @throws IllegalArgumentException if there is no such key
   */
  public String of(String key, Object... values) {
    String text = words.getProperty(key);
    if (text == null) {
      throw new IllegalArgumentException("no words for " + key + " in " + language.key());
    }
    String filled = text;
    for (int i = 0; i < values.length; i++) {
      filled = filled.replace("{" + i + "}", String.valueOf(values[i]));
    }
    return filled;
  }

  /** Likewise; empty if there is no such key. */
  public Optional<String> maybe(String key) {
    return Optional.ofNullable(words.getProperty(key));
  }

  Set<String> keys() {
    return words.stringPropertyNames();
  }
}
