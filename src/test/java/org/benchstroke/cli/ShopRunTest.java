package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.ShopFile;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A run in a shop that has stated the rest once. */
@Timeout(120)
class ShopRunTest {
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;

  private static final String NAMED = "kind = \"shop\"\nformat = 1\nname = \"Invented\"\n";

  @TempDir Path folder;

  private Path shop;

  @BeforeEach
  void write() throws Exception {
    Files.writeString(folder.resolve("brief.toml"), BRIEF);
    Files.copy(ShortRun.TYPE, folder.resolve("type.toml"));
    shop =
        Files.writeString(
            folder.resolve("shop.toml"),
            """
            kind = "shop"
            format = 1
            name = "Invented Actuator Shop"
            operators = ["A. Example"]
            bench = "bench.toml"
            unit_type = "type.toml"
            procedure = "brief.toml"
            records = "kept"
            archive = "shop.sqlite"
            """);
  }

  @Test
  void serialAndOrderAreEnough() throws Exception {
    LeapingClock clock = new LeapingClock();
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      Files.writeString(folder.resolve("bench.toml"), ShortRun.patient(server.benchToml()));
      Command run =
          Command.run(
              clock, "run", "--shop", shop, "--serial", "S-1", "--order", "4711", "--unattended");
      assertThat(run.err()).isEmpty();
      RunRecord record = RecordReader.read(ShortRun.recordIn(folder.resolve("kept")));
      assertThat(record.opened().operator()).isEqualTo("A. Example");
      assertThat(record.opened().order()).isEqualTo("4711");
      assertThat(record.closed().orElseThrow().how()).isEqualTo("complete");
      assertThat(run.out())
          .containsSubsequence(
              "Preflight",
              "About to be tested",
              "serial number       S-1",
              "order               4711",
              "unit type           Quarter-turn",
              "signal range        4",
              "on loss of signal   close",
              "safe signal         4.000 mA",
              "procedure           Brief, version 1, about 1 minute",
              "operator            A. Example",
              "THE UNIT WILL MOVE");
      assertThat(run.out()).doesNotContain("  note");
      assertThat(folder.resolve("kept/archive.sqlite")).doesNotExist();
      Command history = Command.runInShop(shop, "history", "--order", "4711");
      assertThat(history.err()).isEmpty();
      assertThat(history.out()).contains("S-1");

      Command again =
          Command.run(
              clock,
              "run",
              "--shop",
              shop,
              "--serial",
              "S-1",
              "--order",
              "4711",
              "--operator",
              "Somebody",
              "--unattended");
      assertThat(again.err())
          .contains("WARNING: attempt 2 of this job; the first ")
          .contains("WARNING: the operator, Somebody, is not on the shop's list.");
      assertThat(again.out().replaceAll("\\s+", " "))
          .contains("note attempt 2 of this job; the first")
          .contains("note the operator, Somebody, is not on the shop's list");
    }
  }

  /** An option comes before the file, and of a simulated unit its own file says what it is. */
  @Test
  void anOptionComesFirst() throws Exception {
    Path other = Files.writeString(folder.resolve("other.toml"), BRIEF.replace("Brief", "Another"));
    Files.writeString(folder.resolve("bench.toml"), "not looked at");
    Command run =
        Command.run(
            "run",
            "--shop",
            shop,
            "--simulation",
            "simulators/healthy-b.toml",
            "--procedure",
            other,
            "--records",
            folder.resolve("mine"),
            "--serial",
            "S-1",
            "--order",
            "4711",
            "--unattended");
    assertThat(run.err()).isEmpty();
    assertThat(run.out()).contains("Another, version 1");
    assertThat(folder.resolve("kept")).doesNotExist();
    assertThat(ShortRun.recordIn(folder.resolve("mine"))).exists();
  }

  @Test
  void whatNobodySaidIsNamedAndNothingIsDone() throws Exception {
    Files.writeString(folder.resolve("bench.toml"), "not looked at");
    Path none = folder.resolve("none.toml");
    Command run = Command.run("run", "--serial", "S-1", "--order", "1", "--operator", "Ann");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err())
        .contains("'--bench=FILE' and '--unit-type=FILE'")
        .contains("benchstroke config");
    run = Command.run("run", "--shop", none, "--serial", "S-1", "--order", "1");
    assertThat(run.code()).isEqualTo(2);
    assertThat(run.err()).contains(none.toString()).contains("no such file");
    String simulation = "simulators/healthy-b.toml";
    run = Command.run("run", "--shop", shop, "--simulation", simulation, "--order", "1");
    assertThat(run.err()).contains("Missing required option: '--serial=TEXT'");
    run =
        Command.run(
            "run",
            "--shop",
            shop,
            "--simulation",
            simulation,
            "--serial",
            "",
            "--order",
            "1",
            "--unattended");
    assertThat(run.err()).contains("--serial: allowed is a text that is not blank");
    assertThat(folder.resolve("kept")).doesNotExist();
  }

  /**
   * The option, the environment or the user file names it, or it stands in the configuration
   * folder; a name must be there.
   */
  @Test
  void whereTheFileIsLookedFor() throws Exception {
    Path home = folder.resolve("home");
    Surroundings bare = Surroundings.of(Map.of(), home);
    assertThat(bare.defaults(Optional.empty()).shop()).isEmpty();
    Path usual = home.resolve(".config/benchstroke/shop.toml");
    Files.createDirectories(usual.getParent());
    Files.writeString(usual, NAMED);
    assertThat(shopBy(bare)).contains(usual);
    assertThat(shopBy(Surroundings.of(Map.of("XDG_CONFIG_HOME", "etc"), home))).contains(usual);
    assertThat(shopBy(Surroundings.of(Map.of("BENCHSTROKE_SHOP", " "), home))).contains(usual);
    String etc = folder.resolve("etc").toString();
    assertThat(shopBy(Surroundings.of(Map.of("XDG_CONFIG_HOME", etc), home))).isEmpty();
    Path users = Files.writeString(folder.resolve("users.toml"), NAMED);
    Files.writeString(
        usual.resolveSibling("user.toml"),
        "kind = \"user\"\nformat = 1\nshop = \"../../../users.toml\"\n");
    assertThat(shopBy(bare).map(Path::toAbsolutePath)).contains(users.toAbsolutePath());
    Path elsewhere = Files.writeString(folder.resolve("elsewhere.toml"), NAMED);
    Surroundings named = Surroundings.of(Map.of("BENCHSTROKE_SHOP", elsewhere.toString()), home);
    assertThat(shopBy(named)).contains(elsewhere);
    assertThat(named.defaults(Optional.of(shopOf("option.toml"))).shop().orElseThrow().path())
        .hasFileName("option.toml");
  }

  private Path shopOf(String name) throws Exception {
    return Files.writeString(folder.resolve(name), NAMED);
  }

  private static Optional<Path> shopBy(Surroundings around) throws Exception {
    return around.defaults(Optional.empty()).shop().map(ShopFile::path);
  }
}
