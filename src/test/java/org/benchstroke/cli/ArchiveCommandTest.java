package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.benchstroke.record.SealFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Runs go into the archive, and the commands that keep it and ask it. */
class ArchiveCommandTest {
  private static final String INJECTED = "QT-1'; DROP TABLE run; --";

  @TempDir Path folder;

  private Path records() {
    return folder.resolve("records");
  }

  private Command test(String simulation, String serial, Object... more) {
    List<Object> arguments = new ArrayList<>();
    arguments.addAll(
        List.of("run", "--unattended", "--simulation", "simulators/" + simulation + ".toml"));
    arguments.addAll(List.of("--procedure", "demo-data/procedures/short-acceptance.toml"));
    arguments.addAll(List.of("--serial", serial, "--operator", "Ann", "--order", "4711"));
    arguments.addAll(List.of("--records", records()));
    arguments.addAll(List.of(more));
    return Command.run(arguments.toArray());
  }

  private Command history(Object... more) {
    List<Object> arguments = new ArrayList<>(List.of("history", "--records", records()));
    arguments.addAll(List.of(more));
    return Command.run(arguments.toArray());
  }

  private JsonNode json(Object... more) throws Exception {
    List<Object> arguments = new ArrayList<>(List.of(more));
    arguments.add("--json");
    Command asked = history(arguments.toArray());
    assertThat(asked.code()).as(asked.err()).isZero();
    return new ObjectMapper().readTree(asked.out());
  }

  private Command archive(String command, Object... more) {
    List<Object> arguments = new ArrayList<>(List.of("archive", command));
    arguments.addAll(List.of(more));
    return Command.run(arguments.toArray());
  }

  @Test
  void aRunIsInTheArchiveWhenItHasEnded() throws Exception {
    assertThat(test("zero-shift", INJECTED).code()).isEqualTo(1);
    Command passed = test("healthy-b", INJECTED);
    assertThat(passed.code()).isZero();
    assertThat(passed.err()).doesNotContain("archive");

    JsonNode runs = json("--serial", INJECTED);
    assertThat(runs).hasSize(2);
    assertThat(runs.get(0).get("verdict").asText()).isEqualTo("pass");
    assertThat(runs.get(0).get("simulated").asBoolean()).isTrue();
    assertThat(runs.get(0).get("seal").asText()).isEqualTo("sealed");
    assertThat(runs.get(1).get("verdict").asText()).isEqualTo("fail");
    JsonNode job = json("--jobs", "--order", "4711").get(0);
    assertThat(job.get("runs").asInt()).isEqualTo(2);
    assertThat(job.get("first_pass").asBoolean()).isFalse();
    assertThat(job.get("as_found").asText()).isEqualTo("fail");
    assertThat(job.get("as_left").asText()).isEqualTo("pass");

    Command status = archive("status", "--records", records());
    assertThat(status.out()).contains("Runs:    2, from ", "all of " + records());
    assertThat(json("--yield")).isEmpty(); // A simulated unit proves nothing of a shop.
  }

  @Test
  void tablesFitTheirWidthAndTheCsvIsOne() throws Exception {
    test("zero-shift", "A very long serial number, \"quoted\", ÄÖÜ " + "x".repeat(50));
    for (Command table :
        List.of(history(), history("--jobs"), history("--yield"), history("--serial", "none"))) {
      assertThat(table.code()).isZero();
      assertThat(table.out().lines()).allMatch(line -> line.length() <= 80).hasSizeBetween(2, 3);
    }
    assertThat(history().out()).contains("A very long … ", " failed ", " S");
    assertThat(history("--serial", "none").out()).contains("Nothing in the archive is like that.");

    try (CSVParser csv =
        CSVParser.parse(
            history("--csv").out(),
            CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
      List<CSVRecord> rows = csv.getRecords();
      assertThat(rows).hasSize(1);
      assertThat(rows.get(0).get("serial")).startsWith("A very long").contains("\"quoted\", ÄÖÜ");
      assertThat(rows.get(0).get("passed")).isEqualTo("false");
      assertThat(Double.parseDouble(rows.get(0).get("worst_margin"))).isLessThan(-1.0);
    }
  }

  @Test
  void whatIsAmendedIsFoundByItsNewName() throws Exception {
    test("healthy-b", "QT-WRONG");
    Path record = ShortRun.recordIn(records());
    List<Object> amend = new ArrayList<>(List.of("amend", record, "--field", "serial"));
    amend.addAll(List.of("--to", "QT-RIGHT", "--by", "Ann", "--reason", "typo"));
    Command amended = Command.run(amend.toArray());
    assertThat(amended.code()).isZero();
    assertThat(amended.err()).isEmpty();
    assertThat(json("--serial", "QT-RIGHT")).hasSize(1);
    assertThat(json("--serial", "QT-WRONG")).isEmpty();
  }

  /** The unit was tested, whatever becomes of the archive. */
  @Test
  void anArchiveThatFailsHurtsNoRunAndIsCaughtUp() throws Exception {
    Path none = Files.createDirectory(folder.resolve("a folder"));
    int free;
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      free = socket.getLocalPort();
    }
    String server = "postgresql://ann@127.0.0.1:" + free + "/shop";
    for (Object place : List.of(none, server)) {
      Command run = test("healthy-b", "QT-1", "--archive", place);
      assertThat(run.code()).isZero();
      assertThat(run.out()).contains("PASSED", "Record:  ");
      assertThat(run.err().lines().filter(line -> line.contains("rchive")))
          .singleElement()
          .asString()
          .startsWith("WARNING: not in the archive yet: the archive " + place + " can't be ")
          .endsWith("The record is safe; a later run adds it.");
    }
    assertThat(test("healthy-b", "QT-2", "--archive", "none").code()).isZero();
    assertThat(records().resolve("archive.sqlite")).doesNotExist();

    Command run = test("healthy-b", "QT-3");
    assertThat(run.err()).doesNotContain("archive");
    assertThat(json()).hasSize(4);
  }

  @Test
  void commandsThatCannotBeDoneSaySoInALine() throws Exception {
    Path file = records().resolve("archive.sqlite");
    Command none = history();
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err())
        .isEqualTo(
            "there is no archive " + file + " yet; make it from the records: archive rebuild\n");
    assertThat(archive("status", "--records", records()).code()).isEqualTo(2);
    assertThat(archive("catch-up", "--records", records()).err())
        .isEqualTo(records() + ": is no folder; name one that holds records\n");
    assertThat(archive("rebuild", records()).code()).isEqualTo(2);
    assertThat(file).doesNotExist();

    Command word = history("--verdict", "good");
    assertThat(word.code()).isEqualTo(2);
    assertThat(word.err()).contains("found \"good\", allowed are passed, conditional pass");
    assertThat(history("--since", "yesterday").err()).contains("allowed is a day as YYYY-MM-DD");
    assertThat(history("--most", "0").code()).isEqualTo(2);
    assertThat(history("--json", "--csv").code()).isEqualTo(2);
    assertThat(history("--archive", "postgresql://a:secret@b/c").err())
        .contains("PGPASSWORD")
        .doesNotContain("secret")
        .hasLineCount(1);
  }

  @Test
  void theArchiveIsMadeAgainFromTheRecords() throws Exception {
    test("healthy-b", "QT-1");
    test("healthy-b", "QT-2");
    JsonNode before = json();
    Files.delete(records().resolve("archive.sqlite"));
    Files.writeString(records().resolve("notes.jsonl"), "hello\n");
    try (Stream<Path> files = Files.list(records())) {
      Files.delete(
          SealFile.of(
              files.filter(f -> f.toString().endsWith("QT-2.jsonl")).findFirst().orElseThrow()));
    }
    Command rebuilt = archive("rebuild", records());
    assertThat(rebuilt.code()).isZero();
    assertThat(rebuilt.out())
        .contains("QT-2.jsonl: not sealed\n", "notes.jsonl: no record, or not readable: ")
        .contains("Read:    3 records in ", "  1 sound\n", "  1 not sealed\n")
        .contains("2 runs from these records");
    assertThat(json("--serial", "QT-1").get(0)).isEqualTo(before.get(1));
    assertThat(archive("rebuild", records(), "--judge").code()).isZero();
    assertThat(json("--serial", "QT-1").get(0)).isEqualTo(before.get(1));

    Path record;
    try (Stream<Path> files = Files.list(records())) {
      record = files.filter(f -> f.toString().endsWith("QT-1.jsonl")).findFirst().orElseThrow();
    }
    assertThat(archive("add", record, "--archive", folder.resolve("other.sqlite")).out())
        .contains("other.sqlite, 1 record added or brought up to date");
    assertThat(archive("catch-up", "--records", records()).code()).isEqualTo(2);
  }

  /** Starting takes long enough. */
  @Test
  @Timeout(60)
  void commandsThatNeedNoArchiveLoadNothingOfIt() throws Exception {
    test("healthy-b", "QT-1", "--archive", "none");
    Path record = ShortRun.recordIn(records());
    assertThat(loaded("judge", "--json", record)).isEmpty();
    assertThat(loaded("check", "simulators/healthy-b.toml")).isEmpty();
    // And where it is there and up to date, what makes its tables is not started. (A class that
    // names
    // an exception of it makes the machine load that one.)
    archive("rebuild", records());
    assertThat(loaded("history", "--records", records()))
        .contains("org.sqlite.SQLiteDataSource")
        .doesNotContain(
            "org.flywaydb.core.Flyway",
            "com.zaxxer.hikari.pool.HikariPool",
            "org.postgresql.Driver");
  }

  /** Classes of database libraries that a command loads, as a process of its own. */
  private List<String> loaded(Object... arguments) throws Exception {
    ProcessBuilder program = Command.program(arguments);
    program.command().add(1, "-Xlog:class+load:file=" + folder.resolve("loaded"));
    Path said = folder.resolve("said");
    int code = program.redirectErrorStream(true).redirectOutput(said.toFile()).start().waitFor();
    assertThat(code).as(Files.readString(said)).isZero();
    try (Stream<String> lines =
        Files.lines(folder.resolve("loaded"), StandardCharsets.ISO_8859_1)) {
      return lines
          .map(line -> line.replaceFirst("^(\\[[^]]*])*\\s*", "").split(" ", 2)[0])
          .filter(
              name -> name.matches("(org\\.(sqlite|flywaydb|jdbi|postgresql)|com\\.zaxxer)\\..*"))
          .toList();
    }
  }
}
