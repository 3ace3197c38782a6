package org.benchstroke.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;

/** What commands print for other programs, in one line: all keys in snake_case. Thread-safe. */
final class CommandJson {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder().propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE).build();

  private CommandJson() {}

  /** A map, a list or a record as JSON. */
  static String line(Object told) {
    try {
      return MAPPER.writeValueAsString(told);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("it can't be written: " + e.getMessage(), e);
    }
  }
}
