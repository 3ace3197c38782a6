package org.benchstroke.schemas;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.app.SchemaFile;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RunFault;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the program writes for other programs is as its schemas say, by a library that knows nothing
 * of it; and the schemas say no more than what is written.
 */
class JsonSchemasTest {
  private static final JsonSchema JUDGEMENT = new JsonSchema(SchemaFile.JUDGEMENT);
  private static final JsonSchema LINE = new JsonSchema(SchemaFile.RECORD_LINE);

  @TempDir static Path folder;
  private static WrittenSamples samples;

  @BeforeAll
  static void write() throws Exception {
    samples = new WrittenSamples(folder);
  }

  @Test
  void everyJudgementIsAsTheSchemaSays() {
    assertThat(samples.judgements()).hasSizeGreaterThan(10);
    samples
        .judgements()
        .forEach((name, json) -> assertThat(JUDGEMENT.mistakes(json)).as(name).isEmpty());
  }

  @Test
  void everyLineOfARecordIsAsTheSchemaSays() {
    assertThat(samples.lines()).hasSizeGreaterThan(1000);
    for (JsonNode line : samples.lines()) {
      assertThat(LINE.mistakes(line)).as(line.toString()).isEmpty();
    }
  }

  @Test
  void theSchemasStateNothingThatIsNeverWritten() {
    Set<String> seen = new TreeSet<>();
    samples.judgements().values().forEach(json -> JUDGEMENT.seen(json, seen));
    tight(JUDGEMENT, seen);
    Set<String> inLines = new TreeSet<>();
    samples.lines().forEach(line -> LINE.seen(line, inLines));
    tight(LINE, inLines);
  }

  private static void tight(JsonSchema schema, Set<String> seen) {
    Set<String> never = new TreeSet<>(schema.properties());
    assertThat(never).hasSizeGreaterThan(50).containsAll(seen);
    never.removeAll(seen);
    assertThat(never).isEmpty();
  }

  private static void refused(
      JsonSchema schema, JsonNode sound, String what, Consumer<ObjectNode> change) {
    assertThat(schema.mistakes(sound)).isEmpty();
    ObjectNode spoilt = sound.deepCopy();
    change.accept(spoilt);
    assertThat(spoilt).as(what).isNotEqualTo(sound);
    assertThat(schema.mistakes(spoilt)).as(what).isNotEmpty();
  }

  private static ObjectNode at(ObjectNode root, String pointer) {
    return (ObjectNode) root.at(pointer);
  }

  @Test
  void aJudgementThatIsNotOneIsRefused() {
    JsonNode sound = samples.judgements().get("type test");
    for (String key : List.of("verdict", "passed", "simulated", "measures", "report", "format")) {
      refused(JUDGEMENT, sound, key + " missing", j -> j.remove(key));
      refused(JUDGEMENT, sound, key + " renamed", j -> j.set(key + "_", j.remove(key)));
      refused(JUDGEMENT, sound, key + " of another type", j -> j.putObject(key));
    }
    refused(JUDGEMENT, sound, "another verdict", j -> j.put("verdict", "passed"));
    refused(JUDGEMENT, sound, "another format", j -> j.put("format", 2));
    refused(JUDGEMENT, sound, "a key too many", j -> j.put("note", "x"));
    String measure = "/measures/0";
    refused(JUDGEMENT, sound, "a number as text", j -> at(j, measure).put("value", "0.1"));
    refused(JUDGEMENT, sound, "null", j -> at(j, measure).putNull("value"));
    refused(JUDGEMENT, sound, "a value without U", j -> at(j, measure).remove("u"));
    refused(JUDGEMENT, sound, "P of 1.2", j -> at(j, measure).put("probability", 1.2));
    refused(JUDGEMENT, sound, "a word without limits", this::withoutLimits);
    refused(JUDGEMENT, sound, "U below 0", j -> at(j, measure).put("u", -0.1));
    refused(JUDGEMENT, sound, "camel case", j -> at(j, "/unit").put("signalZeroMa", 4.0));
  }

  private void withoutLimits(ObjectNode judgement) {
    at(judgement, "/measures/0").remove(List.of("limit_low", "limit_high"));
  }

  @Test
  void aLineThatIsNotOneIsRefused() {
    for (JsonNode sound : samples.oneOfEachKind()) {
      String kind = sound.path("kind").asText();
      for (String key : List.of("n", "kind", "ns", "utc", "body", "check")) {
        refused(LINE, sound, kind + " without " + key, l -> l.remove(key));
      }
      refused(LINE, sound, "another kind", l -> l.put("kind", "noted"));
      refused(LINE, sound, "a check value too short", l -> l.put("check", "9f86"));
      refused(LINE, sound, "a key too many", l -> at(l, "/body").put("verdict", "pass"));
      for (Map.Entry<String, JsonNode> each : sound.path("body").properties()) {
        String key = each.getKey();
        String what = kind + "." + key;
        refused(LINE, sound, what + " renamed", l -> rename(at(l, "/body"), key));
        JsonNode other = each.getValue().isTextual() ? LINE.root() : TextNode.valueOf("?");
        refused(LINE, sound, what + " of another type", l -> at(l, "/body").set(key, other));
        if (!what.equals("job.facts")) {
          refused(LINE, sound, what + " missing", l -> at(l, "/body").remove(key));
        }
      }
    }
  }

  private static void rename(ObjectNode body, String key) {
    body.set(key + "_", body.remove(key));
  }

  /** Words of the program that the schemas list. */
  @Test
  void listedWordsAreThoseOfTheProgram() {
    assertThat(words("/$defs/run/properties/verdict"))
        .containsExactlyElementsOf(Arrays.stream(Word.values()).map(Word::text).toList());
    assertThat(words("/$defs/diagnosis/properties/outcome"))
        .containsExactlyElementsOf(
            Arrays.stream(Diagnosis.Outcome.values())
                .map(o -> o.name().toLowerCase(Locale.ROOT))
                .toList());
    assertThat(words("/$defs/amendment/properties/field"))
        .containsExactlyElementsOf(Arrays.stream(Label.values()).map(Label::key).toList());
    assertThat(words("/$defs/measure/properties/unit"))
        .containsExactlyInAnyOrderElementsOf(
            Arrays.stream(MeasureKind.values()).map(MeasureKind::unit).distinct().toList());
    List<String> kinds =
        Stream.of(Event.class.getPermittedSubclasses())
            .map(
                kind ->
                    kind.getSimpleName()
                        .replaceAll("([a-z])([A-Z])", "$1_$2")
                        .toLowerCase(Locale.ROOT))
            .toList();
    assertThat(words(LINE, "/$defs/faulted/properties/fault"))
        .containsExactlyElementsOf(
            Arrays.stream(RunFault.values()).map(RunFault::toString).toList());
    assertThat(words(LINE, "/properties/kind")).containsExactlyInAnyOrderElementsOf(kinds);
  }

  private static List<String> words(String pointer) {
    return words(JUDGEMENT, pointer);
  }

  private static List<String> words(JsonSchema schema, String pointer) {
    List<String> words = new ArrayList<>();
    schema.root().at(pointer).path("enum").forEach(word -> words.add(word.asText()));
    assertThat(words).isNotEmpty();
    return words;
  }

  @Test
  void everyPropertyIsDescribed() {
    for (SchemaFile file : SchemaFile.values()) {
      JsonSchema schema = new JsonSchema(file);
      assertThat(schema.root().path("$id").asText())
          .matches("urn:benchstroke:schema:" + file.key() + ":\\d+");
      described(schema.root(), file.key());
      schema.root().path("$defs").properties().forEach(e -> described(e.getValue(), e.getKey()));
    }
  }

  private static void described(JsonNode node, String where) {
    if (node.has("properties") && node.path("type").asText().equals("object")) {
      assertThat(node.path("additionalProperties").isBoolean()).as(where).isTrue();
      assertThat(node.path("additionalProperties").asBoolean()).as(where).isFalse();
    }
    for (Map.Entry<String, JsonNode> each : node.path("properties").properties()) {
      assertThat(each.getValue().path("description").asText())
          .as(where + "." + each.getKey())
          .matches("(?s).{3,}[.]$");
      described(each.getValue(), where + "." + each.getKey());
    }
  }
}
