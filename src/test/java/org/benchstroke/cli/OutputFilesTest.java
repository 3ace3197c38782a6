package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.files.WholeFile;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Nothing that a person has is written over, and what is written can be tied to its record. */
class OutputFilesTest {
  private static final Path READINGS = Path.of("demo-data/recorded/readings.csv");
  private static final Path BENCH = Path.of("demo-data/benches/by-hand.toml");
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final String PRECIOUS = "what took a week";

  @TempDir static Path records;
  private static Path made;

  @TempDir Path folder;
  private Path record;

  @BeforeAll
  static void run() {
    made = VirtualBench.with("healthy-b").runInto(records.resolve("run.jsonl"));
  }

  @BeforeEach
  void copy() throws IOException {
    record = Files.copy(made, folder.resolve("run.jsonl"));
  }

  private Command judge(Object... more) {
    Object[] first = {"judge", READINGS, "--bench", BENCH, "--unit-type", UNIT};
    return Command.run(Stream.concat(Stream.of(first), Stream.of(more)).toArray());
  }

  /** Every option that names a file to be written, by the command that it belongs to. */
  private Command writing(String option, Path target, Object... more) {
    Object[] request =
        switch (option) {
          case "--out", "--csv", "--json" -> new Object[] {"report", record, option, target};
          case "--report", "--record" ->
              new Object[] {
                "judge", READINGS, "--bench", BENCH, "--unit-type", UNIT, option, target
              };
          default ->
              new Object[] {
                "simulate", "simulators/healthy-b.toml", "--port", "-1", option, target
              };
        };
    return Command.run(Stream.concat(Stream.of(request), Stream.of(more)).toArray());
  }

  @ParameterizedTest
  @ValueSource(strings = {"--out", "--csv", "--json", "--report", "--record"})
  void whatHoldsSomethingElseStays(String option) throws IOException {
    Path target = Files.writeString(folder.resolve("mine.txt"), PRECIOUS);
    Command told = writing(option, target);
    assertThat(told.code()).isEqualTo(2);
    assertThat(told.err())
        .startsWith(target + ": exists, and ")
        .contains("name another file with " + option)
        .hasLineCount(1);
    assertThat(target).hasContent(PRECIOUS);
    Command forced = writing(option, target, "--force");
    if (option.equals("--record")) {
      assertThat(forced.code()).isEqualTo(2);
      assertThat(target).hasContent(PRECIOUS);
    } else {
      assertThat(forced.code()).isNotEqualTo(2);
      assertThat(Files.readString(target)).doesNotContain(PRECIOUS);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"--out", "--csv", "--json", "--report", "--record"})
  void linksFoldersAndDevicesAreNeverReplaced(String option) throws IOException {
    Path real = Files.writeString(folder.resolve("real.txt"), PRECIOUS);
    Path link = Files.createSymbolicLink(folder.resolve("link.html"), real);
    Path dangling = Files.createSymbolicLink(folder.resolve("to-nothing"), folder.resolve("no"));
    for (Path target : List.of(link, dangling, Path.of("/dev/null"), folder)) {
      Command told = writing(option, target, "--force");
      assertThat(told.code()).as(target.toString()).isEqualTo(2);
      assertThat(told.err()).startsWith(target.toString()).hasLineCount(1);
    }
    assertThat(Files.isSymbolicLink(link) && Files.isSymbolicLink(dangling)).isTrue();
    assertThat(real).hasContent(PRECIOUS);
    assertThat(Files.exists(Path.of("/dev/null"))).isTrue();
    assertThat(Files.isRegularFile(Path.of("/dev/null"))).isFalse();
  }

  /** However the name is written, and by whatever name the same file is known. */
  @ParameterizedTest
  @ValueSource(strings = {"--out", "--csv", "--json"})
  void aFileThatWasGivenIsNeverWrittenOver(String option) throws IOException {
    byte[] before = Files.readAllBytes(record);
    Path hard = Files.createLink(folder.resolve("hard.jsonl"), record);
    Files.createDirectories(folder.resolve("sub"));
    Path spelt = folder.resolve("sub/../run.jsonl");
    for (Path target : List.of(record, hard, spelt)) {
      Command told = writing(option, target, "--force");
      assertThat(told.code()).isEqualTo(2);
      assertThat(told.err()).contains("is the record itself; name another file with " + option);
    }
    assertThat(Files.readAllBytes(record)).isEqualTo(before);
    assertThat(judge("--report", READINGS, "--force").err()).contains("is the file itself");
    assertThat(judge("--report", BENCH, "--force").err()).contains("is the bench file itself");
    assertThat(judge("--record", UNIT, "--force").err()).contains("is the unit type file itself");
  }

  @Test
  void twoOutputsAreNeverOneFile() {
    Path one = folder.resolve("one");
    Command report = Command.run("report", record, "--out", one, "--json", one);
    assertThat(report.code()).isEqualTo(2);
    assertThat(report.err()).contains("is written by --out; name another file with --json");
    assertThat(Files.exists(one)).isFalse();
    Command judged = judge("--report", one, "--record", folder.resolve("./one"));
    assertThat(judged.err()).contains("is written by --record; name another file with --report");
  }

  @Test
  void anOlderOneOfTheSameKindIsReplaced() {
    for (int i = 0; i < 2; i++) {
      assertThat(writing("--out", folder.resolve("r.html")).code()).isZero();
      assertThat(writing("--json", folder.resolve("r.json")).code()).isZero();
      assertThat(judge("--report", folder.resolve("r.html")).code()).isNotEqualTo(2);
    }
    Command other = writing("--out", folder.resolve("r.json"));
    assertThat(other.err()).contains("is not an earlier report of this program");
  }

  /** Of the simulator; nothing is served, since what is asked for is refused before. */
  @Test
  void aSimulatorOverwritesNothing() throws IOException {
    Path bench = Files.copy(BENCH, folder.resolve("bench.toml"));
    Path unit = Path.of("simulators/healthy-b.toml");
    String sound = Files.readString(unit);
    for (String option : List.of("--bench-file", "--truth")) {
      assertThat(Command.run("simulate", unit, option, bench).err())
          .contains("bench.toml: exists, and is not an earlier ");
      assertThat(Command.run("simulate", unit, option, unit, "--force").err())
          .contains("is the simulation file itself");
      assertThat(Command.run("simulate", unit, option, UNIT, "--force").err())
          .contains("is the unit type file itself");
      assertThat(Command.run("simulate", unit, "--bench", bench, option, bench, "--force").err())
          .contains("is the bench file that is played itself");
    }
    Path one = folder.resolve("one.toml");
    assertThat(Command.run("simulate", unit, "--bench-file", one, "--truth", one).err())
        .contains("is written by --bench-file");
    assertThat(bench).hasSameTextualContentAs(BENCH);
    assertThat(unit).hasContent(sound);
    assertThat(one).doesNotExist();
  }

  @Test
  void aWriteThatFailsLeavesTheOldFileWhole() throws IOException {
    Path file = Files.writeString(folder.resolve("old.html"), PRECIOUS);
    assertThatThrownBy(
            () ->
                WholeFile.write(
                    file,
                    out -> {
                      out.write("half");
                      throw new IOException("no space left");
                    }))
        .hasMessage("no space left");
    assertThat(file).hasContent(PRECIOUS);
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).containsExactlyInAnyOrder(file, record);
    }
    WholeFile.write(file, out -> out.write("new"));
    assertThat(file).hasContent("new");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
        .isEqualTo(PosixFilePermissions.toString(Files.getPosixFilePermissions(record)));
  }

  /** A report and a judgement name the record that they are of, as sha256sum does. */
  @Test
  void whatIsWrittenIsTiedToItsRecord() throws Exception {
    byte[] bytes = Files.readAllBytes(record);
    String sha256 = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    List<String> lines = Files.readAllLines(record);
    String last = lines.get(lines.size() - 1).replaceFirst(".*\"check\":\"(\\w+)\"}$", "$1");
    Path page = folder.resolve("page.html");
    Path json = folder.resolve("page.json");
    Command report = Command.run("report", record, "--out", page, "--json", json);
    assertThat(report.code()).isZero();
    assertThat(Files.readString(page)).contains(sha256).contains(lines.size() + ", " + last);
    JsonNode told = new ObjectMapper().readTree(json.toFile()).path("record");
    assertThat(told.path("sha256").asText()).isEqualTo(sha256);
    assertThat(told.path("lines").asInt()).isEqualTo(lines.size());
    assertThat(told.path("last_check").asText()).isEqualTo(last);
    assertThat(Command.run("judge", record, "--json").out()).isEqualTo(Files.readString(json));

    Path torn = Files.write(folder.resolve("torn.jsonl"), java.util.Arrays.copyOf(bytes, 20_000));
    JsonNode of = new ObjectMapper().readTree(Command.run("judge", torn, "--json").out());
    assertThat(of.path("record").path("sha256").asText())
        .isEqualTo(
            HexFormat.of()
                .formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(torn))));

    Path kept = folder.resolve("kept.jsonl");
    Command first = judge("--record", kept, "--json");
    assertThat(first.out()).contains("last_check");
    assertThat(Command.run("judge", kept, "--json").out()).isEqualTo(first.out());
    assertThat(judge("--json").out()).doesNotContain("last_check");
  }
}
