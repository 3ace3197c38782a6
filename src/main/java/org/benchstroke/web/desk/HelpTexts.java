package org.benchstroke.web.desk;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.Properties;
import java.util.TreeMap;
import org.benchstroke.unit.MeasureKind;

/**
 * What explains measures and words, in the words of a shop. Immutable.
 *
 * @param all by their keys, as the files have them
 * @param words of the trade, with what they mean, by the alphabet
 */
public record HelpTexts(Map<String, String> all, Map<String, String> words) {
  /**
   * What explains a measure.
   *
   * @param what it is
   * @param how it is taken
   * @param tells what a bad value usually says; common practice, no source
   * @param method the name of its method, without its edition
   */
  public record Explained(String what, String how, String tells, String method) {}

  static HelpTexts read() {
    return new HelpTexts(file("measures.properties"), file("words.properties"));
  }

  private static Map<String, String> file(String name) {
    Properties read = new Properties();
    try (InputStream in = HelpTexts.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("the program file is damaged: " + name + " is missing");
      }
      Reader text = new InputStreamReader(in, StandardCharsets.UTF_8);
      read.load(text);
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: " + name, e);
    }
    Map<String, String> all = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);
    read.stringPropertyNames().forEach(key -> all.put(key, read.getProperty(key).strip()));
    return all;
  }

  /** What explains a measure. */
  Explained of(MeasureKind kind) {
    return new Explained(
        text(kind, "what"), text(kind, "how"), text(kind, "tells"), text(kind, "method"));
  }

  private String text(MeasureKind kind, String part) {
    String key = kind.key() + "." + part;
    return Optional.ofNullable(all.get(key))
        .orElseThrow(() -> new IllegalStateException("nothing explains " + key));
  }
}
