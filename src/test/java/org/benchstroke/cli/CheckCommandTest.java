package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class CheckCommandTest {
  private static final Path FILES = Path.of("src/test/resources/check");
  private static final String UNIT = "demo-data/unit-types/quarter-turn-15s.toml";
  private static final String BENCH = "demo-data/benches/wall-bench.toml";

  @TempDir Path folder;

  static List<Path> goodFiles() throws IOException {
    try (Stream<Path> demo = Files.walk(Path.of("demo-data"));
        Stream<Path> simulators = Files.walk(Path.of("simulators"))) {
      return Stream.concat(demo, simulators).filter(p -> p.toString().endsWith(".toml")).toList();
    }
  }

  @ParameterizedTest
  @MethodSource("goodFiles")
  void aGoodFileIsOk(Path file) {
    Command check = Command.run("check", file);
    assertThat(check.out())
        .matches(
            // Below a bench file: where each Modbus value was understood to stand.
            ".*: ok, an? (bench|instrument|unit type|procedure|simulation|shop|user|operators) file\\n"
                + "(  (transcript: .*|.*, unit \\d+: .* at .*)\\n)*");
    assertThat(check.err()).isEmpty();
    assertThat(check.code()).isZero();
  }

  /** Texts that a person reads: every mistake of a file at once, with file, line and key. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "bench-mistakes",
        "kind-missing",
        "kind-unknown",
        "line-mistakes",
        "procedure-mistakes",
        "simulation-mistakes",
        "syntax",
        "unit-type-held"
      })
  void aBadFileIsToldAllItsMistakes(String name) throws IOException {
    Command check = Command.run("check", FILES.resolve(name + ".toml"));
    assertThat(check.out().replace('\\', '/'))
        .isEqualTo(Files.readString(FILES.resolve(name + ".txt")).replace('\\', '/'));
    assertThat(check.err()).isEmpty();
    assertThat(check.code()).isEqualTo(2);
  }

  /** What the preflight would block is said beforehand, at the line of the bench file. */
  @Test
  void aBenchAndAUnitTypeAreCheckedTogether() throws IOException {
    // Dated by the wall: the invented certificates must not run out.
    Path byHand =
        Files.writeString(
            folder.resolve("by-hand.toml"),
            Files.readString(Path.of("demo-data/benches/by-hand.toml"))
                .replace("due = 2027-08-31", "due = 2099-08-31"));
    Command good = Command.run("check", byHand, UNIT, "demo-data/procedures/short-acceptance.toml");
    assertThat(good.code()).isZero();
    assertThat(good.out())
        .contains("together: ok")
        .contains("Accuracy ratio 7.9 : 1")
        .contains("Test \"stroke time\" will not be done: the position is read by a person.")
        .contains("No instrument plays the role \"loop meter\": the setpoint will not be proven.");

    Path late =
        Files.writeString(
            folder.resolve("late.toml"),
            Files.readString(byHand).replaceFirst("calibrated = 2026", "calibrated = 2098"));
    assertThat(Command.run("check", late, UNIT).out())
        .contains("late.toml:17: instrument[1].calibrated: that day is still to come");

    Path bad =
        Files.writeString(
            folder.resolve("bad.toml"),
            Files.readString(byHand)
                .replace("max_mA = 24", "max_mA = 15")
                .replace("compliance_V = 24", "compliance_V = 4")
                .replace("due = 2099-08-31", "due = 2026-03-01")
                .replace("±0.1 %", "±0.9 %"));
    Command told = Command.run("check", bad, UNIT);
    assertThat(told.code()).isEqualTo(2);
    assertThat(told.out())
        .contains("bad.toml:18: instrument[1].due: the calibration was due on that day")
        .contains(
            "bad.toml:23: instrument[1].signal_source.max_mA: the source makes 0.000 mA to 15")
        .contains("needs 20.000 mA; use another source")
        .contains(
            "bad.toml:24: instrument[1].signal_source.compliance_V: 4 V drive at most 16.00 mA")
        .contains("accuracy ratio 1.2 : 1")
        .contains("7 mistakes");
  }

  @Test
  void aHeldUnitTypeSaysHold() {
    assertThat(Command.run("check", FILES.resolve("unit-type-held.toml")).out())
        .contains("HOLD: the fail action is missing")
        .contains(
            "HOLD: is missing, and there is no default; find out what signal leaves this unit")
        .contains("did you mean \"travel_error_pct\"");
  }

  @Test
  void aNameThatIsNoNameIsAMistake() {
    Command check = Command.run("check", FILES.resolve("simulation-odd-path.toml"));
    assertThat(check.out())
        .contains("simulation-odd-path.toml:5: unit_type: is not the name of a file");
    assertThat(check.code()).isEqualTo(2);
  }

  @Test
  void whatCanNotBeReadIsOneClearLine() throws IOException {
    Path bytes = Files.write(folder.resolve("bytes.toml"), new byte[] {'a', '=', '"', -1, '"'});
    Path huge = Files.writeString(folder.resolve("huge.toml"), "# fill\n".repeat(200_000));
    assertOneMistake(bytes, "is not UTF-8 text; save it as UTF-8");
    assertOneMistake(huge, "is larger than 250 kB");
    assertOneMistake(folder, "is a folder; name a file");
    assertOneMistake(folder.resolve("none.toml"), "there is no such file");
  }

  private static void assertOneMistake(Path file, String message) {
    Command check = Command.run("check", file);
    assertThat(check.out().lines()).hasSize(2);
    assertThat(check.out()).startsWith(file + ": ").contains(message).endsWith("\n1 mistake\n");
    assertThat(check.code()).isEqualTo(2);
  }

  @Test
  void severalFilesAreCheckedInOneGo() {
    Command check = Command.run("check", UNIT, FILES.resolve("kind-missing.toml"), BENCH);
    assertThat(check.out())
        .contains(UNIT + ": ok, a unit type file")
        .contains(BENCH + ": ok, a bench file")
        .contains("kind-missing.toml:1: kind: is missing");
    assertThat(check.code()).isEqualTo(2);
  }

  @Test
  void jsonListsTheSameMistakes() throws IOException {
    Command check = Command.run("check", "--json", FILES.resolve("unit-type-held.toml"), UNIT);
    JsonNode list = new ObjectMapper().readTree(check.out());
    assertThat(list).hasSize(5);
    for (JsonNode mistake : list) {
      assertThat(mistake.path("file").asText()).endsWith("unit-type-held.toml");
      assertThat(mistake.path("line").asInt()).isPositive();
      assertThat(mistake.path("key").asText()).isNotEmpty();
      assertThat(mistake.path("message").asText()).isNotEmpty();
    }
    assertThat(check.code()).isEqualTo(2);
    assertThat(Command.run("check", "--json", UNIT)).isEqualTo(new Command(0, "[]\n", ""));
  }

  /** A file cut off anywhere, or with any one byte changed, is told or read, but never a crash. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        UNIT,
        BENCH,
        "demo-data/procedures/short-acceptance.toml",
        "simulators/span-error.toml"
      })
  void aSpoiltFileNeverCrashes(String good) throws IOException {
    byte[] text = Files.readString(Path.of(good)).getBytes(StandardCharsets.UTF_8);
    Path spoilt = folder.resolve("spoilt.toml");
    for (int at = 0; at < text.length; at += 31) {
      Files.write(spoilt, java.util.Arrays.copyOf(text, at));
      assertThat(Command.run("check", spoilt).code()).isIn(0, 2);
      byte[] changed = text.clone();
      changed[at] = (byte) "0-.\"[]=x\0\n".charAt(at % 10);
      Files.write(spoilt, changed);
      assertThat(Command.run("check", spoilt).code()).isIn(0, 2);
    }
  }
}
