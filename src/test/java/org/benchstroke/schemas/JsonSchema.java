package org.benchstroke.schemas;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.benchstroke.app.SchemaFile;

/** One of the shipped schemas, with an independent library that checks by it. */
public final class JsonSchema {
  static final ObjectMapper MAPPER = new ObjectMapper();

  private final JsonNode root;
  private final Schema schema;

  public JsonSchema(SchemaFile file) {
    try {
      root = MAPPER.readTree(file.text());
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
    schema = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(root);
  }

  public JsonNode root() {
    return root;
  }

  /** What the library finds wrong, a sentence each; empty if nothing. */
  public List<String> mistakes(JsonNode instance) {
    return schema.validate(instance).stream()
        .map(error -> error.getInstanceLocation() + ": " + error.getMessage())
        .toList();
  }

  /** Follows a reference. */
  public JsonNode resolved(JsonNode node) {
    return root.at(node.get("$ref").asText().substring(1));
  }

  /** Where every property of the schema is stated, but for those of conditions. */
  Set<String> properties() {
    Set<String> all = new TreeSet<>();
    stated(root, "", all);
    root.path("$defs")
        .properties()
        .forEach(each -> stated(each.getValue(), "/$defs/" + each.getKey(), all));
    return all;
  }

  private void stated(JsonNode node, String at, Set<String> all) {
    for (Map.Entry<String, JsonNode> each : node.path("properties").properties()) {
      String path = at + "/" + each.getKey();
      all.add(path);
      stated(each.getValue(), path, all);
    }
    if (node.has("items")) {
      stated(node.get("items"), at, all);
    }
  }

  /** Adds where the properties are stated that an instance has. */
  void seen(JsonNode instance, Set<String> seen) {
    seen(root, "", instance, seen);
  }

  private void seen(JsonNode node, String at, JsonNode instance, Set<String> seen) {
    if (node.has("$ref")) {
      String to = node.get("$ref").asText().substring(1);
      seen(root.at(to), to, instance, seen);
    }
    for (Map.Entry<String, JsonNode> each : node.path("properties").properties()) {
      if (instance.has(each.getKey())) {
        String path = at + "/" + each.getKey();
        seen.add(path);
        seen(each.getValue(), path, instance.get(each.getKey()), seen);
      }
    }
    if (node.has("items")) {
      instance.forEach(item -> seen(node.get("items"), at, item, seen));
    }
    if (node.path("if").has("required")) {
      boolean then = instance.has(node.at("/if/required/0").asText());
      seen(node.path(then ? "then" : "else"), at, instance, seen);
    }
    for (JsonNode condition : node.path("allOf")) {
      String kind = condition.at("/if/properties/kind/const").asText();
      if (!kind.isEmpty() && kind.equals(instance.path("kind").asText())) {
        JsonNode body = condition.at("/then/properties/body");
        seen(body, at + "/body", instance.path("body"), seen);
      }
    }
  }
}
