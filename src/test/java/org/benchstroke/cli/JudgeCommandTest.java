package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.papers.Elsewhere;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code judge} and {@code report} on records of each way in which a run can end. */
class JudgeCommandTest {
  @TempDir static Path records;
  private static Path passing;
  private static Path failing;
  private static Path blocked;
  private static Path interrupted;
  private static Path torn;
  private static Path damaged;

  @TempDir Path folder;

  @BeforeAll
  static void run() throws IOException {
    passing = VirtualBench.with("healthy-b").runInto(records.resolve("passing.jsonl"));
    failing = VirtualBench.with("span-error").runInto(records.resolve("failing.jsonl"));
    blocked =
        VirtualBench.with("loop-resistance-too-high").runInto(records.resolve("blocked.jsonl"));
    byte[] whole = Files.readAllBytes(passing);
    int lastLine = whole.length - 2;
    while (whole[lastLine - 1] != '\n') {
      lastLine--;
    }
    interrupted = write("interrupted.jsonl", Arrays.copyOf(whole, lastLine));
    torn = write("torn.jsonl", Arrays.copyOf(whole, whole.length - 5));
    byte[] changed = whole.clone();
    changed[whole.length / 2] ^= 1;
    damaged = write("damaged.jsonl", changed);
  }

  private static Path write(String name, byte[] bytes) throws IOException {
    return Files.write(records.resolve(name), bytes);
  }

  @Test
  void aPassingRunExitsWithZero() {
    Command judge = Command.run("judge", passing);
    assertThat(judge.out()).contains("Every limit and every order is met.");
    assertThat(judge.code()).isZero();
  }

  @Test
  void aFailingRunExitsWithOne() {
    Command judge = Command.run("judge", failing);
    assertThat(judge.out()).contains("FAILED – Not met: ").doesNotContain("PASSED");
    assertThat(judge.code()).isEqualTo(1);
  }

  @Test
  void whatWasNotCompletedExitsWithThree() {
    for (Path record : List.of(blocked, interrupted, torn, damaged)) {
      Command judge = Command.run("judge", record);
      assertThat(judge.code()).as(record.toString()).isEqualTo(3);
      assertThat(judge.out()).as(record.toString()).doesNotContain("PASSED");
    }
    assertThat(Command.run("judge", interrupted).out()).contains("interrupted");
    assertThat(Command.run("judge", torn).out()).contains("is torn and was left out");
    assertThat(Command.run("judge", damaged).out()).contains("is damaged from line");
    assertThat(Command.run("judge", blocked).out()).contains("loop resistance is too high");
  }

  @Test
  void whatIsNoRecordIsOneClearLine() throws IOException {
    Path text = Files.writeString(folder.resolve("text.jsonl"), "hello\n");
    Path empty = Files.createFile(folder.resolve("empty.jsonl"));
    Path none = folder.resolve("none.jsonl");
    for (String command : List.of("judge", "report")) {
      for (Path file : List.of(text, empty, none, folder)) {
        Command judge = Command.run(command, file);
        assertThat(judge.code()).isEqualTo(2);
        assertThat(judge.out()).isEmpty();
        assertThat(judge.err().lines()).hasSize(1);
        assertThat(judge.err()).startsWith(file + ": ");
      }
    }
    assertThat(folder.toFile().list()).containsExactlyInAnyOrder("text.jsonl", "empty.jsonl");
  }

  @Test
  void judgingAgainGivesTheSameBytesEverywhere() {
    for (Path record : List.of(passing, failing, blocked, torn)) {
      for (Object[] command :
          List.of(new Object[] {"judge", record}, new Object[] {"judge", "--json", record})) {
        Command first = Command.run(command);
        assertThat(Command.run(command)).isEqualTo(first);
        assertThat(Elsewhere.call(() -> Command.run(command))).isEqualTo(first);
      }
    }
  }

  @Test
  void aReportIsWrittenWhereItIsWanted() throws IOException {
    Path page = folder.resolve("new/folder/page.html");
    Command report = Command.run("report", failing, "--out", page);
    assertThat(report.code()).isEqualTo(1);
    assertThat(report.out()).isEqualTo("Report:  " + page + "\n");
    assertThat(Files.readString(page)).startsWith("<!DOCTYPE html>").contains("failing.jsonl");

    Path copy = Files.copy(passing, folder.resolve("copy.jsonl"));
    assertThat(Command.run("report", copy).code()).isZero();
    assertThat(folder.resolve("copy.html")).exists();
    // A report of the same record replaces the one before, byte for byte.
    byte[] before = Files.readAllBytes(folder.resolve("copy.html"));
    assertThat(Command.run("report", copy).code()).isZero();
    assertThat(Files.readAllBytes(folder.resolve("copy.html"))).isEqualTo(before);
  }

  @Test
  void aReportNeverReplacesARecord() throws IOException {
    Path copy = Files.copy(passing, folder.resolve("copy.jsonl"));
    Files.createDirectory(folder.resolve("x"));
    for (Path same : List.of(copy, folder.resolve("x/../copy.jsonl"))) {
      Command report = Command.run("report", copy, "--out", same);
      assertThat(report.code()).isEqualTo(2);
      assertThat(report.err()).contains("is the record itself");
    }
    assertThat(Files.mismatch(copy, passing)).isEqualTo(-1);
  }

  @Test
  void aReportThatCanNotBeWrittenIsOneClearLine() throws IOException {
    Path file = Files.createFile(folder.resolve("file"));
    Command report = Command.run("report", passing, "--out", file.resolve("page.html"));
    assertThat(report.code()).isEqualTo(2);
    assertThat(report.err().lines()).hasSize(1);
    assertThat(report.err()).contains("page.html").contains("can't be written");
  }
}
