package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectReader;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Events as JSON and back: the keys of a body are the components of the event. Thread-safe. */
final class EventJson {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .enable(DeserializationFeature.READ_ENUMS_USING_TO_STRING)
          .enable(SerializationFeature.WRITE_ENUMS_USING_TO_STRING)
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .build();
  private static final Map<String, ObjectReader> READERS = readers();
  private static final String OPENED = kind(Event.Opened.class);
  private static final String JOB = kind(Event.Job.class);
  private static final String FACTS = "facts";

  private EventJson() {}

  /** The word for an event's kind in a record. */
  static String kind(Event event) {
    return kind(event.getClass());
  }

  /** The class's name in small letters, a line between its words: TestBegan is test_began. */
  private static String kind(Class<? extends Event> type) {
    return type.getSimpleName().replaceAll("(?<=.)(?=[A-Z])", "_").toLowerCase(Locale.ROOT);
  }

  static String body(Event event) {
    return text(event);
  }

  /** A record of Java as an object of JSON, in one line. */
  static String text(Object stated) {
    try {
      return MAPPER.writeValueAsString(stated);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("it can't be written: " + e.getMessage(), e);
    }
  }

  /**
   * Reads such an object.
   *
   * @throws JsonProcessingException if it is not one, or has other keys
   */
  static <T> T read(String text, Class<T> type) throws JsonProcessingException {
    return MAPPER.readValue(text, type);
  }

  /** The parts of a line. */
  record Line(
      long number, String kind, long nanos, String utc, Optional<StepId> step, Event event) {}

  /**
   * Takes a line apart, in one pass: its kind, by which its body is read, comes before its body.
   *
   * @throws JsonProcessingException if it is no JSON, or the body does not fit its kind
   * @throws IllegalArgumentException if the kind is not known, or there is no body
   */
  static Line line(String text) throws JsonProcessingException {
    long number = 0;
    String kind = "";
    long nanos = 0;
    String utc = "";
    Optional<StepId> step = Optional.empty();
    Optional<Event> event = Optional.empty();
    try (JsonParser parser = MAPPER.createParser(text)) {
      parser.nextToken();
      for (String key = parser.nextFieldName(); key != null; key = parser.nextFieldName()) {
        parser.nextToken();
        switch (key) {
          case "n" -> number = parser.getValueAsLong();
          case "kind" -> kind = parser.getValueAsString("");
          case "ns" -> nanos = parser.getValueAsLong();
          case "utc" -> utc = parser.getValueAsString("");
          case "step" -> step = Optional.of(step(parser.getValueAsString("")));
          case "body" -> event = Optional.ofNullable(body(kind, parser));
          case "check" -> parser.skipChildren();
          default -> throw new IllegalArgumentException("it has a key \"" + key + "\" too many");
        }
      }
    } catch (JsonProcessingException e) {
      throw e;
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory can be read", e);
    }
    return new Line(
        number,
        kind,
        nanos,
        utc,
        step,
        event.orElseThrow(() -> new IllegalArgumentException("it has no body")));
  }

  private static StepId step(String text) {
    return StepId.of(text)
        .orElseThrow(() -> new IllegalArgumentException("\"" + text + "\" is not a step"));
  }

  /** The format is looked at before anything else of a record: in another, all may be otherwise. */
  private static Event body(String kind, JsonParser parser) throws IOException {
    if (kind.equals(JOB)) {
      return job(parser);
    }
    if (!kind.equals(OPENED)) {
      return reader(kind).readValue(parser);
    }
    JsonNode body = MAPPER.readTree(parser);
    int format = body.path("format").asInt(Event.FORMAT);
    if (format != Event.FORMAT) {
      throw new OtherFormat(format, body.path("tool").asText("another version"));
    }
    return reader(kind).readValue(body);
  }

  /** The first records of this format could state no facts of a job. */
  private static Event job(JsonParser parser) throws IOException {
    JsonNode body = MAPPER.readTree(parser);
    if (body instanceof ObjectNode object && !object.has(FACTS)) {
      object.putObject(FACTS);
    }
    return reader(JOB).readValue(body);
  }

  /** A record of another format. The message says which, and what to do. */
  static final class OtherFormat extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    OtherFormat(int format, String tool) {
      super(
          "it is of format "
              + format
              + ", and this version reads format "
              + Event.FORMAT
              + "; judge it with the program that wrote it: "
              + tool);
    }
  }

  private static ObjectReader reader(String kind) {
    ObjectReader reader = READERS.get(kind);
    if (reader == null) {
      throw new IllegalArgumentException("the kind \"" + kind + "\" is not known");
    }
    return reader;
  }

  private static Map<String, ObjectReader> readers() {
    Map<String, ObjectReader> readers = new LinkedHashMap<>();
    for (Class<?> permitted : Event.class.getPermittedSubclasses()) {
      Class<? extends Event> type = permitted.asSubclass(Event.class);
      readers.put(kind(type), MAPPER.readerFor(type));
    }
    return readers;
  }
}
