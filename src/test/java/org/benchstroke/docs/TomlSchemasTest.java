package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.benchstroke.app.SchemaFile;
import org.benchstroke.app.ShopFileReader;
import org.benchstroke.app.UserFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.schemas.JsonSchema;
import org.benchstroke.schemas.TomlAsJson;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.access.OperatorsFile;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The schemas of the files that people write: they take every demo file, know the keys of the
 * reference pages and no others, and refuse what the readers refuse, where a schema can.
 */
class TomlSchemasTest {
  private static final Map<String, JsonSchema> SCHEMAS = schemas();
  private static final String HERE = "src/main/resources/org/benchstroke/schemas/";

  /** A copy of the demo's files, which name each other. */
  @TempDir static Path copy;

  @BeforeAll
  static void copyFiles() throws IOException {
    for (Path file : files()) {
      Path to = copy.resolve(file);
      Files.createDirectories(to.getParent());
      Files.copy(file, to);
    }
    Files.copy(Path.of("demo-data/shop/logo.svg"), copy.resolve("demo-data/shop/logo.svg"));
  }

  private static Map<String, JsonSchema> schemas() {
    Map<String, JsonSchema> schemas = new HashMap<>();
    for (SchemaFile file :
        List.of(
            SchemaFile.BENCH,
            SchemaFile.UNIT_TYPE,
            SchemaFile.PROCEDURE,
            SchemaFile.SIMULATION,
            SchemaFile.INSTRUMENT,
            SchemaFile.SHOP,
            SchemaFile.USER,
            SchemaFile.OPERATORS)) {
      schemas.put(file.key().replace('-', ' '), new JsonSchema(file));
    }
    return schemas;
  }

  static List<Path> files() throws IOException {
    List<Path> files = new ArrayList<>();
    for (String folder :
        List.of(
            "demo-data",
            "simulators",
            "src/test/resources/benches",
            "src/test/resources/operators")) {
      try (Stream<Path> walk = Files.walk(Path.of(folder))) {
        walk.filter(file -> file.toString().endsWith(".toml")).sorted().forEach(files::add);
      }
    }
    assertThat(files).hasSizeGreaterThan(50);
    return files;
  }

  @ParameterizedTest
  @MethodSource("files")
  void everyFileIsAsItsSchemaSaysAndNamesIt(Path file) throws IOException {
    String text = Files.readString(file);
    JsonNode json = TomlAsJson.of(text);
    String kind = json.path("kind").asText();
    assertThat(SCHEMAS.get(kind).mistakes(json)).isEmpty();
    if (!file.startsWith("src")) {
      String named = text.lines().findFirst().orElseThrow();
      assertThat(named).startsWith("#:schema ");
      Path schema = file.resolveSibling(named.substring("#:schema ".length())).normalize();
      assertThat(schema)
          .isEqualTo(Path.of(HERE + kind.replace(' ', '-') + ".schema.json"))
          .isRegularFile();
    }
  }

  @Test
  void wholeFilesOfTheDocumentsAreToo() {
    int seen = 0;
    for (Pages.Block block : Pages.blocks()) {
      if (block.info().matches("toml (bench|unit-type|procedure|simulation|shop|operators)")) {
        seen++;
        JsonNode json = TomlAsJson.of(block.text());
        assertThat(SCHEMAS.get(json.path("kind").asText()).mistakes(json))
            .as(block.toString())
            .isEmpty();
      }
    }
    assertThat(seen).isGreaterThan(4);
  }

  @ParameterizedTest
  @CsvSource({
    "bench, bench-file.md",
    "unit type, unit-type-file.md",
    "procedure, procedure-file.md",
    "simulation, simulation-file.md",
    "shop, shop-file.md",
    "user, user-file.md",
    "operators, operators-file.md"
  })
  void theKeysAreThoseOfThePage(String kind, String page) {
    JsonSchema schema = SCHEMAS.get(kind);
    Map<String, Set<String>> documented = Pages.tables(Path.of("docs/reference", page), "key");
    Map<String, Set<String>> stated = new TreeMap<>();
    Set<String> reached = new TreeSet<>();
    documented.forEach(
        (table, keys) -> {
          JsonNode node = table(schema, table);
          reached.add(node.path("properties").toString());
          Set<String> properties = new TreeSet<>();
          node.path("properties").fieldNames().forEachRemaining(properties::add);
          stated.put(table, properties);
        });
    assertThat(stated).isEqualTo(documented);
    for (Map.Entry<String, JsonNode> each : schema.root().path("$defs").properties()) {
      boolean alike = each.getKey().matches("certified_(pct|deg|V)");
      assertThat(reached.contains(each.getValue().path("properties").toString()) || alike)
          .as("a table that is on no page: " + each.getKey())
          .isTrue();
    }
  }

  /** "instrument.loop_meter.counter", "test travel error": as the page heads it. */
  private static JsonNode table(JsonSchema schema, String table) {
    if (table.equals("Top of the file")) {
      return schema.root();
    }
    if (table.startsWith("test ")) {
      return schema.root().at("/$defs/" + table.substring(5).replace(' ', '_'));
    }
    if (table.equals("test.item")) {
      return schema.root().at("/$defs/item");
    }
    JsonNode node = schema.root();
    for (String key : table.split("\\.", -1)) {
      node = inner(schema, node.path("properties").path(key));
      assertThat(node.isMissingNode()).as(table).isFalse();
    }
    return node;
  }

  private static JsonNode inner(JsonSchema schema, JsonNode node) {
    if (node.has("$ref")) {
      return inner(schema, schema.resolved(node));
    }
    if (node.has("items")) {
      return inner(schema, node.get("items"));
    }
    for (JsonNode choice : node.path("anyOf")) {
      if (choice.has("$ref")) {
        return inner(schema, choice);
      }
    }
    return node;
  }

  private interface Reader {
    void read(Path file) throws FileMistakes;
  }

  private static final Map<String, Reader> READERS =
      Map.of(
          "bench", f -> BenchFileReader.read(TomlDocument.read(f)),
          "unit type", f -> UnitTypeReader.read(TomlDocument.read(f)),
          "procedure", ProcedureReader::read,
          "simulation", SimulationReader::read,
          "shop", ShopFileReader::read,
          "user", UserFile::read,
          "operators", f -> OperatorsFile.read(TomlDocument.read(f)));

  /**
   * Every number, word, truth value and day of some files, made wrong in turn, and every key made
   * another: what the reader refuses the schema refuses too.
   */
  @ParameterizedTest
  @CsvSource({
    "demo-data/benches/type-test-bench.toml",
    "demo-data/benches/line-bench.toml",
    "demo-data/benches/by-hand.toml",
    "demo-data/benches/modules-on-rs485.toml",
    "demo-data/benches/angle-reference.toml",
    "demo-data/unit-types/quarter-turn-15s.toml",
    "demo-data/procedures/full-type-test.toml",
    "demo-data/procedures/endurance.toml",
    "simulators/bad-link.toml",
    "simulators/pneumatic-sticking.toml",
    "demo-data/shop/shop.toml",
    "demo-data/shop/user.toml",
    "src/test/resources/operators/operators.toml"
  })
  void whatTheReaderRefusesTheSchemaRefuses(Path file) throws IOException {
    List<String> lines = Files.readAllLines(file);
    int refused = 0;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).replaceFirst("\\s+#.*$", "");
      if (!line.matches("[A-Za-z_][\\w-]* = [^{]*[^{\\[]")) {
        continue;
      }
      String key = line.substring(0, line.indexOf(' '));
      for (String spoilt :
          List.of(
              key + "_x" + line.substring(key.length()),
              key + " = \"?? no such word\"",
              key + " = -1e15",
              key + " = true",
              key + " = []",
              key + " = {}",
              "")) {
        List<String> other = new ArrayList<>(lines);
        other.set(i, spoilt);
        refused += bothRefuse(file, String.join("\n", other) + "\n", key, spoilt) ? 1 : 0;
      }
    }
    Files.copy(file, copy.resolve(file), StandardCopyOption.REPLACE_EXISTING);
    assertThat(refused).isGreaterThan(20);
  }

  private boolean bothRefuse(Path original, String text, String key, String spoilt)
      throws IOException {
    String kind = TomlAsJson.of(Files.readString(original)).path("kind").asText();
    if (key.equals("kind") || TextOnly.SAYS_NO_SCHEMA.stream().anyMatch(s -> s.of(key, spoilt))) {
      return false;
    }
    Path other = Files.writeString(copy.resolve(original), text);
    FileMistakes mistakes =
        catchThrowableOfType(FileMistakes.class, () -> READERS.get(kind).read(other));
    if (mistakes == null) {
      return false;
    }
    assertThat(SCHEMAS.get(kind).mistakes(TomlAsJson.of(text)))
        .as(original + ": " + key + " becomes " + spoilt + "\n" + mistakes.getMessage())
        .isNotEmpty();
    return true;
  }

  /** What no schema can say: kept in the table of docs/reference/machine-readable.md. */
  private record TextOnly(String keys, String values) {
    static final List<TextOnly> SAYS_NO_SCHEMA =
        List.of(
            // a reference from one place of a file to another, or to another file
            new TextOnly("name|line|on|unit_type|bench|procedure|shop|folders|logo", ".*"),
            // texts with a grammar of their own
            new TextOnly("accuracy|temperature_coefficient|drift_per_year", ".*"),
            new TextOnly("set|set_reply|reply|reply_on|reply_off|errors|at_opening.*|ask", ".*"),
            // what must hold between two keys
            new TextOnly("min_.*|max_.*|stick_pct|temperature_coefficient|folders", ""));

    boolean of(String key, String spoilt) {
      return key.matches(keys) && (values.equals(".*") ? spoilt.contains("??") : spoilt.isEmpty());
    }
  }
}
