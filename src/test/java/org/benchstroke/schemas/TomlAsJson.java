package org.benchstroke.schemas;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlTable;

/**
 * TOML as an editor hands it to a schema: a day is a text, and what JSON has no number for is null.
 */
public final class TomlAsJson {
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private TomlAsJson() {}

  public static JsonNode of(String toml) {
    TomlParseResult parsed = Toml.parse(toml);
    if (parsed.hasErrors()) {
      throw new IllegalArgumentException(parsed.errors().toString());
    }
    return node(parsed);
  }

  private static JsonNode node(Object value) {
    if (value instanceof TomlTable table) {
      ObjectNode object = NODES.objectNode();
      table.keySet().forEach(key -> object.set(key, node(table.get(List.of(key)))));
      return object;
    }
    if (value instanceof TomlArray array) {
      ArrayNode list = NODES.arrayNode();
      array.toList().forEach(item -> list.add(node(item)));
      return list;
    }
    if (value instanceof Long number) {
      return NODES.numberNode(number);
    }
    if (value instanceof Double number) {
      return Double.isFinite(number) ? NODES.numberNode(number) : NODES.nullNode();
    }
    if (value instanceof Boolean truth) {
      return NODES.booleanNode(truth);
    }
    return NODES.textNode(String.valueOf(value));
  }
}
