package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.SchemaFile;
import org.benchstroke.record.RecordReader;
import org.benchstroke.schemas.JsonSchema;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What need not be typed: who states it, in which order, and how files are found by short names.
 */
class ConfigCommandTest {
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "%s"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;

  @TempDir Path folder;

  private Surroundings around;

  @BeforeEach
  void write() throws Exception {
    Files.createDirectories(folder.resolve("types"));
    Files.createDirectories(folder.resolve("procedures"));
    Files.createDirectories(folder.resolve("config"));
    Files.copy(ShortRun.TYPE, folder.resolve("types/quarter.toml"));
    for (String name : new String[] {"brief", "other", "own"}) {
      write("procedures/" + name + ".toml", BRIEF.formatted(name));
    }
    write(
        "config/shop.toml",
        """
        kind = "shop"
        format = 1
        name = "Invented Actuator Shop"
        operators = ["A. Example"]
        unit_type = "quarter"
        procedure = "brief"
        folders = ["../types", "../procedures"]
        archive = "postgresql://shop@db.example/benchstroke"
        paper = "letter"
        language = "de"
        """);
    around = new Surroundings(Map.of(), Optional.of(folder.resolve("config")));
  }

  private Path write(String name, String text) throws Exception {
    return Files.writeString(folder.resolve(name), text);
  }

  private JsonNode config(Map<String, String> variables, Object... more) throws Exception {
    Object[] arguments = new Object[more.length + 2];
    arguments[0] = "config";
    arguments[1] = "--json";
    System.arraycopy(more, 0, arguments, 2, more.length);
    Command told = Command.runIn(new Surroundings(variables, around.config()), arguments);
    assertThat(told.err()).isEmpty();
    JsonNode json = new ObjectMapper().readTree(told.out());
    assertThat(new JsonSchema(SchemaFile.CONFIG).mistakes(json)).isEmpty();
    return json;
  }

  private static String of(JsonNode config, String key) {
    for (JsonNode setting : config.get("settings")) {
      if (setting.get("setting").asText().equals(key)) {
        Path value = Path.of(setting.path("value").asText());
        return value.getFileName() + " by " + setting.path("from").asText();
      }
    }
    throw new AssertionError(key);
  }

  /** Each is taken from the first that says it: environment, user file, shop file, built in. */
  @Test
  void oneOrderForAllOfThem() throws Exception {
    JsonNode shopAlone = config(Map.of());
    assertThat(of(shopAlone, "procedure")).isEqualTo("brief.toml by shop file");
    assertThat(of(shopAlone, "operator")).isEqualTo("A. Example by shop file");
    assertThat(of(shopAlone, "records")).isEqualTo("records by built in");
    assertThat(of(shopAlone, "bench")).isEqualTo(" by ");

    write("config/user.toml", "kind = \"user\"\nformat = 1\noperator = \"B. Sample\"\n");
    JsonNode user = config(Map.of());
    assertThat(of(user, "operator")).isEqualTo("B. Sample by user file");
    assertThat(of(user, "language")).isEqualTo("de by shop file");

    Map<String, String> variables = new HashMap<>();
    variables.put("BENCHSTROKE_OPERATOR", "C. Instance");
    variables.put("BENCHSTROKE_PROCEDURE", "other");
    variables.put("BENCHSTROKE_LANGUAGE", "en");
    JsonNode environment = config(variables);
    assertThat(of(environment, "operator")).isEqualTo("C. Instance by environment");
    assertThat(of(environment, "procedure")).isEqualTo("other.toml by environment");
    assertThat(of(environment, "language")).isEqualTo("en by environment");
    assertThat(of(environment, "paper")).isEqualTo("letter by shop file");

    String type = Files.readString(folder.resolve("types/quarter.toml"));
    write("types/quarter.toml", type.replaceFirst("\nname = ", "\nprocedure = \"own\"\nname = "));
    JsonNode ofUnit = config(variables);
    assertThat(of(ofUnit, "procedure")).isEqualTo("own.toml by unit type file");
  }

  @Test
  void theTableSaysWhereEachIsFromAndWhatIsNobodys() throws Exception {
    Command told = Command.runIn(around, "config");
    assertThat(told.code()).isZero();
    assertThat(told.out())
        .contains("bench      must be named\n")
        .contains("procedure  ", "brief.toml   (shop file ", "letter   (")
        .contains("records    records   (built in)")
        .contains("User file: none; it would be ", "Shop file: ", "Short names are searched in: ");
  }

  /** A serial number alone is typed; that a unit type names its procedure goes for a simulation. */
  @Test
  void theNextUnitIsItsSerialNumber() throws Exception {
    String type = Files.readString(folder.resolve("types/quarter.toml"));
    write("types/quarter.toml", type.replaceFirst("\nname = ", "\nprocedure = \"own\"\nname = "));
    Command run =
        Command.runIn(
            around,
            "run",
            "--simulation",
            "simulators/healthy-b.toml",
            "--unit-type",
            "quarter",
            "--archive",
            "none",
            "--records",
            folder.resolve("records"),
            "-s",
            "S-7",
            "--order",
            "none",
            "--unattended");
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).contains("serial number       S-7", "procedure           own, version 1");
    assertThat(RecordReader.read(ShortRun.recordIn(folder.resolve("records"))).opened().operator())
        .isEqualTo("A. Example");
  }

  @Test
  void aShortNameOfNoneOrOfTwoIsToldWithWhatThereIs() throws Exception {
    Object[] probe = {"probe", "--bench", "x.toml", "--unit-type", "halfturn"};
    Command none = Command.runIn(around, probe);
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err())
        .contains("--unit-type: there is no file \"halfturn\"")
        .contains("no unit type file of this short name in ")
        .endsWith("; there are quarter\n");

    Files.createDirectories(folder.resolve("config/more"));
    Files.copy(ShortRun.TYPE, folder.resolve("config/more/quarter.toml"));
    write("config/user.toml", "kind = \"user\"\nformat = 1\nfolders = [\"more\"]\n");
    probe[4] = "quarter";
    Command two = Command.runIn(around, probe);
    assertThat(two.code()).isEqualTo(2);
    assertThat(two.err())
        .contains("\"quarter\" is the short name of several files: ")
        .contains("more", "types")
        .endsWith("; name one with its folder\n");

    Command nowhere = Command.run(probe);
    assertThat(nowhere.err()).contains("no folders are stated", "state \"folders\" in a user file");
  }

  /** A file of another kind is no unit type, whatever its name. */
  @Test
  void aShortNameIsOfItsKind() throws Exception {
    Command other = Command.runIn(around, "probe", "--bench", "x.toml", "--unit-type", "brief");
    assertThat(other.err()).contains("there is no file \"brief\"").endsWith("there are quarter\n");
  }

  @Test
  void mistakesInAllOfItAreTold() throws Exception {
    write(
        "config/user.toml",
        "kind = \"user\"\nformat = 1\nshop = \"none.toml\"\nbench = \"short\"\nfolders = [\"no\"]\n");
    Command file = Command.runIn(around, "config");
    assertThat(file.code()).isEqualTo(2);
    assertThat(file.err().lines())
        .anyMatch(l -> l.contains("user.toml:3: shop: there is no file "))
        .anyMatch(l -> l.contains("user.toml:4: bench: there is no file \"short\""))
        .anyMatch(l -> l.contains("user.toml:5: folders: there is no folder "));
    Command paper = Command.runIn(Map.of("BENCHSTROKE_PAPER", "A5"), "config");
    assertThat(paper.code()).isEqualTo(2);
    assertThat(paper.err()).isEqualTo("BENCHSTROKE_PAPER: found \"A5\", allowed are A4, letter\n");
    assertThat(Command.runIn(Map.of("BENCHSTROKE_SHOP", "no.toml"), "config").err())
        .contains("no.toml: there is no such file");
  }

  /** The procedure that a unit type names must be there, and be one. */
  @Test
  void checkLooksForTheProcedureOfAUnitType() throws Exception {
    String type = Files.readString(ShortRun.TYPE);
    Path file = folder.resolve("types/quarter.toml");
    write(
        "types/quarter.toml", type.replaceFirst("\nname = ", "\nprocedure = \"no.toml\"\nname = "));
    assertThat(
            Command.runIn(around, "check", file).err() + Command.runIn(around, "check", file).out())
        .contains("procedure: there is no file ");
    write(
        "types/quarter.toml", type.replaceFirst("\nname = ", "\nprocedure = \"quarter\"\nname = "));
    assertThat(Command.runIn(around, "check", file).out())
        .contains("procedure: there is no file \"quarter\"", "there are brief, other, own");
  }

  /** The address of a server may hold a password, which no line shows. */
  @Test
  void noPasswordIsShown() throws Exception {
    Command told =
        Command.runIn(Map.of("BENCHSTROKE_ARCHIVE", "postgresql://a:secret@db/x"), "config");
    assertThat(told.out() + told.err()).doesNotContain("secret");
    assertThat(config(Map.of()).toString()).contains("postgresql://shop@db.example");
  }
}
