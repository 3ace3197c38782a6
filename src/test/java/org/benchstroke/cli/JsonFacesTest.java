package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.app.SchemaFile;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.schemas.JsonSchema;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/**
 * What programs read of commands: each that prints facts has JSON, and it is as its schema says.
 */
class JsonFacesTest {
  /** Commands without {@code --json}, and why. */
  private static final Map<String, String> NONE =
      Map.of(
          "demo", "shows a run to a person; run --simulation --json is the same for a program",
          "drive", "a person drives by hand and looks",
          "find-map", "asks a person, and writes a bench file",
          "new", "asks a person, and writes a file",
          "operator add", "asks for a secret",
          "operator remove", "says one sentence",
          "serve", "serves a screen until it is ended",
          "setup", "leads a person through the set-up of a unit",
          "practise", "asks a person",
          "generate-completion", "prints a script for a shell");

  @TempDir static Path folder;

  private static Command run;
  private static Path record;

  /** A whole run, told line by line; what it leaves is what the others are asked of. */
  @BeforeAll
  static void runOnce() throws Exception {
    Path brief =
        Files.writeString(
            folder.resolve("brief.toml"),
            """
            kind = "procedure"
            format = 1
            name = "Brief"
            version = "1"
            [[test]]
            test = "exercise"
            strokes = 1
            """);
    run =
        Command.run(
            "run",
            "--simulation",
            "simulators/healthy-b.toml",
            "--procedure",
            brief,
            "--records",
            folder.resolve("records"),
            "--serial",
            "S-1",
            "--order",
            "1",
            "--operator",
            "Ann",
            "--unattended",
            "--json-lines");
    record = ShortRun.recordIn(folder.resolve("records"));
  }

  private static JsonNode json(String text) throws Exception {
    return new ObjectMapper().readTree(text);
  }

  private static JsonNode sound(SchemaFile schema, Command command) throws Exception {
    JsonNode json = json(command.out());
    assertThat(command.out().lines()).hasSize(1);
    assertThat(new JsonSchema(schema).mistakes(json)).as(command.out()).isEmpty();
    return json;
  }

  @Test
  void everyCommandThatPrintsFactsHasJson() {
    Map<String, Boolean> has = new TreeMap<>();
    leaves("", CommandLines.all(), has);
    Set<String> without = new TreeSet<>();
    has.forEach((name, json) -> (json ? new TreeSet<String>() : without).add(name));
    assertThat(has).hasSizeGreaterThan(30);
    assertThat(without).isEqualTo(new TreeSet<>(NONE.keySet()));
  }

  private static void leaves(String name, CommandLine line, Map<String, Boolean> has) {
    if (line.getSubcommands().isEmpty()) {
      has.put(name.strip(), line.getCommandSpec().findOption("--json") != null);
    }
    line.getSubcommands().forEach((sub, command) -> leaves(name + " " + sub, command, has));
  }

  @Test
  void aRunIsToldLineByLine() throws Exception {
    JsonSchema schema = new JsonSchema(SchemaFile.RUN_LINE);
    List<String> kinds = new ArrayList<>();
    List<String> events = new ArrayList<>();
    JsonNode last = json("{}");
    for (String line : run.out().lines().toList()) {
      JsonNode json = json(line);
      assertThat(schema.mistakes(json)).as(line).isEmpty();
      kinds.add(json.get("line").asText());
      if (kinds.get(kinds.size() - 1).equals("event")) {
        events.add(json.get("kind").asText());
      }
      last = json;
    }
    assertThat(kinds).startsWith("plan", "event").endsWith("end").contains("progress");
    assertThat(kinds.stream().filter("plan"::equals)).hasSize(1);
    assertThat(events).startsWith("opened").endsWith("closed").contains("test_began", "rested");
    assertThat(events).doesNotContain("sampled");
    assertThat(last.get("exit_code").asInt()).isEqualTo(run.code());
    assertThat(last.get("passed").asBoolean()).isEqualTo(run.code() == 0);
    assertThat(last.get("record").asText()).isEqualTo(record.toString());
    JsonNode judgement = json(Files.readString(new RecordFiles(record).json()));
    assertThat(last.get("verdict")).isEqualTo(judgement.get("verdict"));
    assertThat(Command.run("run", "--json", "--json-lines", "-s", "1").err())
        .contains("give one of them");
  }

  @Test
  void verifyTellsOfEachRecord() throws Exception {
    JsonNode one =
        sound(SchemaFile.VERIFIED, Command.run("verify", "--json", record)).at("/records/0");
    assertThat(one.get("well").asBoolean()).isTrue();
    assertThat(one.get("state").asText()).isEqualTo("sealed");

    Path cut = folder.resolve("cut.jsonl");
    Files.write(cut, Files.readAllLines(record).subList(0, 3));
    Path none = Files.writeString(folder.resolve("none.jsonl"), "no record\n");
    Command all = Command.run("verify", "--json", record, cut, none);
    JsonNode three = sound(SchemaFile.VERIFIED, all).get("records");
    assertThat(three).hasSize(3);
    assertThat(three.at("/1/well").asBoolean()).isFalse();
    assertThat(three.at("/2/state").asText()).isEqualTo("unreadable");
    assertThat(all.code()).isEqualTo(2);
  }

  @Test
  void keyAndAmendmentAndArchive() throws Exception {
    JsonNode key = sound(SchemaFile.KEY, Command.run("key", "--json"));
    assertThat(Path.of(key.get("public_half").asText())).exists();
    Path other = folder.resolve("amended");
    Files.createDirectories(other);
    Path copy = Files.copy(record, other.resolve(record.getFileName()));
    String seal = record.getFileName() + ".seal";
    Files.copy(record.resolveSibling(seal), other.resolve(seal));
    Command amend =
        Command.run(
            "amend",
            copy,
            "--field",
            "order",
            "--to",
            "2",
            "--by",
            "Ann",
            "--reason",
            "typo",
            "--json",
            "--archive",
            "none");
    JsonNode amended = sound(SchemaFile.AMENDED, amend);
    assertThat(amended.get("was").asText() + amended.get("is").asText()).isEqualTo("12");
    JsonNode verified =
        sound(SchemaFile.VERIFIED, Command.run("verify", "--json", copy)).at("/records/0");
    assertThat(verified.at("/amendments/0/is").asText()).isEqualTo("2");

    Path archive = folder.resolve("shop.sqlite");
    Object[] rebuild = {
      "archive", "rebuild", folder.resolve("records"), "--archive", archive, "--json"
    };
    JsonNode rebuilt = sound(SchemaFile.ARCHIVE_WORK, Command.run(rebuild));
    assertThat(rebuilt.at("/counts/sound").asInt()).isEqualTo(1);
    Command add = Command.run("archive", "add", copy, "--archive", archive, "--json");
    assertThat(sound(SchemaFile.ARCHIVE_WORK, add).get("added").asInt()).isEqualTo(1);
  }

  @Test
  void aScanTellsWhoAnswered() throws Exception {
    LeapingClock clock = new LeapingClock();
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      String modbus =
          server
              .benchToml()
              .replaceAll("(?s).*speaks = \"modbus tcp\"\\s+address = \"([^\"]+)\".*", "$1");
      Command scan = Command.run("scan", modbus, "--from", "1", "--to", "2", "--json");
      JsonNode told = sound(SchemaFile.SCAN, scan);
      assertThat(told.get("asked").asInt()).isEqualTo(2);
      assertThat(told.at("/answers/0/unit_id").asInt()).isEqualTo(1);
      assertThat(told.at("/answers/0/device").asBoolean()).isTrue();
      assertThat(scan.code()).isZero();
    }
  }

  @Test
  void listsAreForProgramsToo() throws Exception {
    JsonNode schemas = json(Command.run("schema", "--json").out());
    assertThat(schemas).hasSize(SchemaFile.values().length);
    JsonNode simulations = json(Command.run("simulate", "--list", "--json").out());
    assertThat(simulations.size()).isGreaterThan(20);
    assertThat(simulations.at("/0/shows").asText()).isNotBlank();
  }
}
