package org.benchstroke.web.desk;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import org.benchstroke.web.Visit;

/**
 * What stands behind the question mark of an address, in order: all of a page's state. Immutable.
 *
 * @param fields names with their values; those without a value have no entry
 */
public record Query(Map<String, String> fields) {
  /** Nothing. */
  public static final Query NONE = new Query(Map.of());

  public Query {
    fields = Collections.unmodifiableMap(new LinkedHashMap<>(fields));
  }

  /** Those of these names that a request has. */
  static Query of(Visit visit, String... names) {
    Map<String, String> fields = new LinkedHashMap<>();
    for (String name : names) {
      visit.query(name).ifPresent(value -> fields.put(name, value));
    }
    return new Query(fields);
  }

  /** The value of a field; empty without one. */
  public String get(String name) {
    return fields.getOrDefault(name, "");
  }

  /** The same with another value; an empty one takes the field out. */
  public Query with(String name, String value) {
    Map<String, String> others = new LinkedHashMap<>(fields);
    if (value.isEmpty()) {
      others.remove(name);
    } else {
      others.put(name, value);
    }
    return new Query(others);
  }

  /** The address of a page with these. */
  public String on(String path) {
    String all =
        fields.entrySet().stream()
            .map(e -> encoded(e.getKey()) + "=" + encoded(e.getValue()))
            .collect(Collectors.joining("&"));
    return all.isEmpty() ? path : path + "?" + all;
  }

  static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
