package org.benchstroke.papers;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * An object of JSON: its keys in the order in which they were given. What does not exist has no
 * key, nor has what JSON has no number for: infinity and NaN. No record of Java: a measure has some
 * twenty keys, many are there at times only, and one is called "for". For one thread.
 */
final class Fields {
  private final Map<String, Object> all = new LinkedHashMap<>();

  /**
   * Adds a key.
   *
   * @param value a text, a number, a truth value, a list, a map, further fields, or an optional one
   *     of these
   */
  Fields with(String key, Object value) {
    if (value instanceof Optional<?> perhaps) {
      perhaps.ifPresent(v -> with(key, v));
    } else if (value instanceof OptionalDouble perhaps) {
      perhaps.ifPresent(v -> with(key, v));
    } else if (!(value instanceof Double number) || Double.isFinite(number)) {
      all.put(key, value);
    }
    return this;
  }

  /** Adds the keys of others. */
  Fields with(Fields others) {
    all.putAll(others.all);
    return this;
  }

  @JsonValue
  Map<String, Object> all() {
    return all;
  }
}
