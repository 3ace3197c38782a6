package org.benchstroke;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads the outside reference data of the tests; each file names its source and confidence. */
public final class ReferenceData {
  private ReferenceData() {}

  /** The rows of a CSV file by the names of its first line; lines with # are comments. */
  public static List<Map<String, String>> csv(String name) {
    List<String> lines = text(name).lines().filter(l -> !l.startsWith("#")).toList();
    List<String> keys = List.of(lines.get(0).split(",", -1));
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = List.of(line.split(",", -1));
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < keys.size(); i++) {
        row.put(keys.get(i), cells.get(i));
      }
      rows.add(row);
    }
    return rows;
  }

  /** A column of a CSV file as numbers. */
  public static double[] column(String name, String key) {
    return csv(name).stream().mapToDouble(row -> Double.parseDouble(row.get(key))).toArray();
  }

  public static JsonNode json(String name) {
    try {
      return new ObjectMapper().readTree(text(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String text(String name) {
    try (InputStream in = ReferenceData.class.getResourceAsStream("/reference/" + name)) {
      if (in == null) {
        throw new IllegalArgumentException("no reference data named " + name);
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
