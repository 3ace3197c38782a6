package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.run.Operator;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What a folder of records says before a run: how the last one left the source, and no more. */
@Timeout(120)
class LastRunTest {
  private static final String BRIEF = "[[test]]\ntest = \"exercise\"\nstrokes = 1\n";

  @TempDir static Path shared;
  private static Path whole;
  private static Path refused;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    whole = VirtualBench.with("healthy-b").tests(BRIEF).runInto(shared.resolve("whole.jsonl"));
    refused =
        VirtualBench.with("healthy-b")
            .tests(BRIEF)
            .askedBy(Operator.NOBODY)
            .runInto(shared.resolve("refused.jsonl"));
  }

  @Test
  void aWholeRunIsNothingToTell() throws Exception {
    record("20260601-080000-A", whole());
    assertThat(warnings()).isEmpty();
    assertThat(LastRun.warnings(new RecordStore(folder.resolve("none")), bench())).isEmpty();
  }

  @Test
  void anInterruptedRunIsToldUntilALaterOneIsWhole() throws Exception {
    record("20260601-080000-A", whole());
    Path last = record("20260601-090000-B", withoutItsEnd(whole()));
    assertThat(warnings()).singleElement().asString().contains(last + ": this run was interrupted");
    record("20260601-100000-C", whole());
    assertThat(warnings()).isEmpty();
  }

  @Test
  void soIsOneWhoseLastLineIsTorn() throws Exception {
    String text = whole();
    record("20260601-090000-B", text.substring(0, text.length() - 1));
    assertThat(warnings()).singleElement().asString().contains("was interrupted");
  }

  @Test
  void aRunThatEndedWithoutASafeSignalIsTold() throws Exception {
    String text = whole();
    int at = text.lastIndexOf("\"confirmed\":true");
    record(
        "20260601-090000-B",
        text.substring(0, at) + text.substring(at).replaceFirst("true", "false"));
    assertThat(warnings())
        .singleElement()
        .asString()
        .contains("this run ended without its safe signal confirmed");
  }

  @Test
  void aRunThatSourcedNothingLeavesThingsAsTheyWere() throws Exception {
    record("20260601-090000-B", withoutItsEnd(whole()));
    record("20260601-100000-C", Files.readString(refused));
    assertThat(warnings())
        .singleElement()
        .asString()
        .contains("-B.jsonl: this run was interrupted");
    record("20260601-110000-D", whole());
    record("20260601-120000-E", Files.readString(refused));
    assertThat(warnings()).isEmpty();
  }

  @Test
  void aRunOnAnotherBenchIsTheOthersMatter() throws Exception {
    record("20260601-090000-B", withoutItsEnd(whole()));
    String other = benchText().replace("900101", "900111");
    assertThat(LastRun.warnings(new RecordStore(folder), bench(other))).isEmpty();
  }

  /** The name tells the time first; a file without one is looked at by its content. */
  @Test
  void aRenamedRecordCounts() throws Exception {
    record("kept", withoutItsEnd(whole()));
    assertThat(warnings()).singleElement().asString().contains("kept.jsonl: this run was");
  }

  @Test
  void whatCanNotBeReadIsPassedOverWithAWord() throws Exception {
    record("20260601-080000-A", whole());
    record("20260601-090000-short", "{\"n\":1,\"check\":\"}\n");
    record("20260601-090001-text", "hello\nworld\n");
    record("20260601-090002-empty", "");
    Files.createDirectory(folder.resolve("20260601-090003-folder.jsonl"));
    try (RandomAccessFile huge =
        new RandomAccessFile(folder.resolve("20260601-090004-huge.jsonl").toFile(), "rw")) {
      huge.setLength(2_000_000_000L);
    }
    Path pipe = folder.resolve("20260601-090005-pipe.jsonl");
    assertThat(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor()).isZero();

    List<String> said = warnings();

    assertThat(said).hasSize(4).allMatch(line -> line.startsWith("WARNING: skipped: "));
    assertThat(said.get(0)).contains(pipe + ": is not an ordinary file");
    assertThat(said.get(1)).contains("huge").contains("its first line is not that of a record");
    assertThat(said.get(3)).contains("3 more");
  }

  /** However many there are, the newest one answers: the others are not opened. */
  @Test
  void thousandsOfOldRecordsAreNotLookedAt() throws Exception {
    for (int i = 0; i < 10_000; i++) {
      record("20250601-%06d-old".formatted(i), "no record, and a warning if it were looked at\n");
    }
    record("20260601-090000-A", whole());
    assertThat(warnings()).isEmpty();
  }

  /** A list of them is read as far as it is asked for; the names alone say which come first. */
  @Test
  void headingsAreListedWithoutTheRecords() throws Exception {
    for (int i = 0; i < 10_000; i++) {
      record("20250601-%06d-old".formatted(i), "");
    }
    Path newest = record("20260601-090000-A", whole());
    Path undated = record("another", whole());
    RecordStore store = new RecordStore(folder);
    assertThat(store.headings().findFirst().orElseThrow().heading().orElseThrow().file())
        .isEqualTo(newest);
    List<RecordStore.Listing> all = store.headings().toList();
    assertThat(all).hasSize(10_002);
    assertThat(all.get(1).flaw()).contains("20250601-009999-old");
    assertThat(all.get(10_001).file()).isEqualTo(undated);
    RecordStore none = new RecordStore(folder.resolve("none"));
    assertThat(none.headings()).isEmpty();
  }

  /** Nor is a source looked for in all of them that was not used for long. */
  @Test
  void theNewestFiveHundredAreLookedAt() throws Exception {
    record("20250601-080000-A", withoutItsEnd(whole()));
    for (int i = 0; i < 500; i++) {
      record("20260601-%06d-new".formatted(i), "no record\n");
    }
    assertThat(warnings()).hasSize(4).last().asString().contains("497 more");
  }

  /** A person saw to it: that stands beside the record, which stays as it was. */
  @Test
  void anAnswerBesideTheRecordEndsIt() throws Exception {
    String text = withoutItsEnd(whole());
    Path last = record("20260601-090000-B", text);
    assertThat(warnings()).singleElement().asString().contains("--seen-to");
    Path answer = SeenTo.note(last, "Ann\n", Instant.parse("2026-06-01T09:10:00Z"));
    assertThat(warnings()).isEmpty();
    assertThat(answer).hasContent("2026-06-01T09:10:00Z Ann saw to the unit of this run");
    assertThat(last).content().isEqualTo(text);
    SeenTo.note(last, "Bo", Instant.parse("2026-06-01T09:20:00Z"));
    assertThat(Files.readAllLines(answer)).hasSize(2);
    Path next = record("20260601-100000-C", text);
    assertThat(warnings()).singleElement().asString().startsWith(next.toString());
  }

  @Test
  void nothingIsAnsweredOfARunThatWasLeftSafeOrOfNone() throws Exception {
    Path safe = record("20260601-080000-A", whole());
    Path none = record("20260601-090000-B", "no record\n");
    for (Path each : List.of(safe, none, folder.resolve("absent.jsonl"))) {
      assertThatThrownBy(() -> SeenTo.note(each, "Ann", Instant.EPOCH))
          .isInstanceOf(WrongRequest.class)
          .hasMessageStartingWith("--seen-to: ")
          .hasMessageContaining(each.toString());
    }
    assertThat(folder).isDirectoryNotContaining("glob:**.txt");
  }

  private List<String> warnings() throws Exception {
    return LastRun.warnings(new RecordStore(folder), bench());
  }

  private Path record(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name + ".jsonl"), text);
  }

  private static String whole() throws IOException {
    return Files.readString(whole, StandardCharsets.UTF_8);
  }

  private static String withoutItsEnd(String text) {
    return text.substring(0, text.lastIndexOf('\n', text.length() - 2) + 1);
  }

  private static String benchText() {
    return VirtualBench.with("healthy-b").unit().benchToml(Map.of(), 1.0);
  }

  private static BenchFile bench() throws FileMistakes {
    return bench(benchText());
  }

  private static BenchFile bench(String text) throws FileMistakes {
    return BenchFileReader.read(TomlDocument.parse("bench.toml", text));
  }
}
