package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/** Events as JSON and back: the keys of a body are the components of the event. Thread-safe. */
final class EventJson {
  private static final Map<String, Class<? extends Event>> KINDS = kinds();
  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .enable(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .build();

  private EventJson() {}

  /** The word for an event's kind in a record. */
  static String kind(Event event) {
    return kind(event.getClass());
  }

  /** The class's name in small letters, a hyphen between its words: TestBegan is test-began. */
  private static String kind(Class<? extends Event> type) {
    return type.getSimpleName().replaceAll("(?<=.)(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
  }

  static String body(Event event) {
    try {
      return MAPPER.writeValueAsString(event);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("an event can't be written: " + e.getMessage(), e);
    }
  }

  static String quoted(String text) {
    try {
      return MAPPER.writeValueAsString(text);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("a text can't be written: " + e.getMessage(), e);
    }
  }

  static JsonNode tree(String line) throws JsonProcessingException {
    return MAPPER.readTree(line);
  }

  /**
   * The event of a line.
   *
   * @throws JsonProcessingException if the body does not fit its kind
   * @throws IllegalArgumentException if the kind is not known
   */
  static Event event(String kind, JsonNode body) throws JsonProcessingException {
    Class<? extends Event> type = KINDS.get(kind);
    if (type == null) {
      throw new IllegalArgumentException("the kind \"" + kind + "\" is not known");
    }
    return MAPPER.treeToValue(body, type);
  }

  private static Map<String, Class<? extends Event>> kinds() {
    Map<String, Class<? extends Event>> kinds = new LinkedHashMap<>();
    for (Class<?> permitted : Event.class.getPermittedSubclasses()) {
      Class<? extends Event> type = permitted.asSubclass(Event.class);
      kinds.put(kind(type), type);
    }
    return kinds;
  }
}
