package org.benchstroke.cli;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;

/** What commands give to other programs: all keys in snake_case. Thread-safe. */
final class CommandJson {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder().propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE).build();

  private CommandJson() {}

  /** A map, a list or a record as JSON. */
  static String line(Object told) {
    return text(MAPPER.writer(), told);
  }

  /** The same in lines that people can read, for a file. */
  static String page(Object told) {
    return text(MAPPER.writerWithDefaultPrettyPrinter(), told) + "\n";
  }

  private static String text(ObjectWriter writer, Object told) {
    try {
      return writer.writeValueAsString(told);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("it can't be written: " + e.getMessage(), e);
    }
  }
}
