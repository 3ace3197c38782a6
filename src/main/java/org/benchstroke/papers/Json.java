package org.benchstroke.papers;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;

/**
 * What is given to other programs: all keys in snake_case, numbers the shortest that read back as
 * the same double. The same data give the same bytes on any machine. Thread-safe.
 */
public final class Json {
  // the fast writer: Double.toString gives other digits before Java 19 (JDK-4511638)
  private static final ObjectMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder().enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER).build())
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .build();
  private static final DefaultIndenter INDENTER = new DefaultIndenter("  ", "\n");
  private static final DefaultPrettyPrinter LINES =
      new DefaultPrettyPrinter().withObjectIndenter(INDENTER).withArrayIndenter(INDENTER);

  private Json() {}

  /** A map, a list or a record of Java in one line, without its end. */
  public static String line(Object told) {
    return text(MAPPER.writer(), told);
  }

  /** The same in lines that people can read, each with its line feed; to be stored as UTF-8. */
  public static String page(Object told) {
    return text(MAPPER.writer(LINES), told) + "\n";
  }

  private static String text(ObjectWriter writer, Object told) {
    try {
      return writer.writeValueAsString(told);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("it can't be written: " + e.getMessage(), e);
    }
  }
}
