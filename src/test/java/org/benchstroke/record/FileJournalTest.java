package org.benchstroke.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.clock.VirtualClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileJournalTest {
  static final Instant START = Instant.parse("2026-06-01T08:00:00.123456789Z");

  @TempDir Path folder;

  /** One of each kind, with texts and numbers that are easily spoiled. */
  static List<Event> oneOfEach() {
    String text =
        "±0.02 % \"quoted\" \\ back\nnew\tline \u0000\u001f Ω µ 漢 \uD83D\uDE42 ,\"check\":\"";
    return List.of(
        new Event.Opened(
            Event.FORMAT,
            "benchstroke 1",
            "",
            20.0,
            text,
            "Ann",
            "4711",
            "+05:30",
            List.of(new Event.SourceFile("bench", "bench.toml", "a = 1\r\n# " + text))),
        new Event.Imported(
            "trace", text, "00ff", List.of(text), 3, true, true, 0.05, "mA", true, List.of(text)),
        new Event.Resumed(text, "00ff", 7),
        new Event.Job("Example Water Board", Map.of("temperature_c", 21.5, "humidity_pct", 40.0)),
        new Event.Cautioned("motion", text, "yes"),
        new Event.Identified("source", "X", text, false),
        new Event.Checked(
            "loop", "ok", text, Map.of("b", -0.0, "a", Double.MIN_VALUE, "c", Double.MAX_VALUE)),
        new Event.TestBegan(0, "exercise", 1),
        new Event.TestEnded(0, "exercise", 1, "void", text),
        new Event.Commanded(0.1 + 0.2, 4.048, 4.048000000000001, 1L, Long.MAX_VALUE),
        new Event.Disturbed("open loop", 0.0, true, -5L, 7L),
        new Event.Sampled("position", 1e-300, "%", "good", text, 0L, 1L),
        new Event.Rested("travel 50 up", Leg.ARRIVAL, 50.0, "up", 1, true, false, 3L, 4L, 0.05),
        new Event.Watched("hold 50", 50.0, false, text, 3L, 9L),
        new Event.Faulted(RunFault.GAP, "", text),
        new Event.Powered(true, "relay"),
        new Event.MadeSafe(4.0, false, text),
        new Event.SwitchPassed("open", true, "wheel", 89.5, 0.05, 0.1),
        step(text),
        new Event.SetUp(
            "a.set-up", "ab12", "2026-01-01T00:00:00Z", text, "whole", List.of(step(text))),
        new Event.Closed("fault", text, 1.0 / 3.0));
  }

  private static Event.SetUpStep step(String text) {
    return new Event.SetUpStep(
        "open_switch", "done", text, Map.of("trip_deg", 89.5), Map.of("turned", text));
  }

  @Test
  void everyKindOfEventComesBackAsItWas() throws Exception {
    List<Event> events = oneOfEach();
    assertThat(events.stream().<Class<?>>map(Object::getClass))
        .containsExactlyInAnyOrder(Event.class.getPermittedSubclasses());
    Path file = folder.resolve("a/b/record.jsonl");
    List<Entry> written = write(file, events);

    RunRecord read = RecordReader.read(file);

    assertThat(read.flaws()).isEmpty();
    assertThat(read.entries()).isEqualTo(written);
    assertThat(read.entries().stream().map(Entry::event)).isEqualTo(events);
    assertThat(Files.readAllLines(file)).hasSameSizeAs(events);
  }

  @Test
  void timesCountFromTheOpening() throws Exception {
    Path file = folder.resolve("record.jsonl");
    VirtualClock clock = new VirtualClock(START);
    clock.waitUntil(5_000);
    try (FileJournal journal = FileJournal.create(file, clock)) {
      assertThat(journal.originNanos()).isEqualTo(5_000);
      clock.waitUntil(12_000);
      journal.write(oneOfEach().get(0));
    }
    Entry only = RecordReader.read(file).entries().get(0);
    assertThat(only.nanos()).isEqualTo(7_000);
    assertThat(only.utc()).isEqualTo(START.plusNanos(12_000));
  }

  @Test
  void aRecordIsNeverOverwritten() throws Exception {
    Path file = folder.resolve("record.jsonl");
    write(file, oneOfEach());
    byte[] before = Files.readAllBytes(file);

    assertThatThrownBy(() -> FileJournal.create(file, new VirtualClock(START)))
        .isInstanceOf(FileAlreadyExistsException.class);

    assertThat(Files.readAllBytes(file)).isEqualTo(before);
  }

  @Test
  void whatIsNoRecordIsToldApart() throws Exception {
    Path empty = Files.createFile(folder.resolve("empty.jsonl"));
    Path text = Files.writeString(folder.resolve("text.jsonl"), "hello\nworld\n");
    Path json = Files.writeString(folder.resolve("json.jsonl"), "{\"n\":1}\n");
    Path cut = Files.writeString(folder.resolve("cut.jsonl"), "{\"n\":1,\"check\":\"}\n");
    Path binary = Files.write(folder.resolve("binary.jsonl"), new byte[] {0, -1, -2, 10, 13, -128});
    Path middle = folder.resolve("middle.jsonl");
    write(folder.resolve("whole.jsonl"), oneOfEach());
    List<String> lines = Files.readAllLines(folder.resolve("whole.jsonl"));
    Files.write(middle, lines.subList(1, lines.size()));

    for (Path file : List.of(empty, text, json, cut, binary, middle)) {
      assertThatThrownBy(() -> RecordReader.read(file))
          .isInstanceOf(RecordReader.NotARecord.class)
          .hasMessageContaining(file.getFileName().toString())
          .hasMessageContaining("is not a record")
          .hasMessageContaining(
              file.equals(empty) ? "it is empty" : "its first line is not that of one");
      assertThatThrownBy(() -> RecordHeading.read(file))
          .isInstanceOf(RecordReader.NotARecord.class)
          .hasMessageContaining(file.getFileName().toString());
    }
    assertThatThrownBy(() -> RecordReader.read(folder.resolve("nothing.jsonl")))
        .isInstanceOf(RecordReader.NotARecord.class)
        .hasMessageContaining("there is no such file");
    assertThatThrownBy(() -> RecordReader.read(folder))
        .isInstanceOf(RecordReader.NotARecord.class)
        .hasMessageContaining("is a folder; name a file");
  }

  /** Lines that are sound by themselves, in another order, twice, or one left out. */
  @Test
  void linesThatWereMovedAreFound() throws Exception {
    Path whole = folder.resolve("whole.jsonl");
    write(whole, oneOfEach());
    List<String> lines = Files.readAllLines(whole);
    for (int i = 1; i < lines.size() - 1; i++) {
      List<String> swapped = new ArrayList<>(lines);
      swapped.set(i, lines.get(i + 1));
      swapped.set(i + 1, lines.get(i));
      List<String> twice = new ArrayList<>(lines);
      twice.add(i + 1, lines.get(i));
      List<String> leftOut = new ArrayList<>(lines);
      leftOut.remove(i);
      assertThat(readLines(swapped).entries()).hasSize(i);
      assertThat(readLines(twice).entries()).hasSize(i + 1);
      assertThat(readLines(leftOut).entries()).hasSize(i);
      for (List<String> changed : List.of(swapped, twice, leftOut)) {
        assertThat(readLines(changed).flaws()).hasSize(1);
        assertThat(readLines(changed).closed()).isEmpty();
      }
    }
  }

  /** A line more after the closing one is no line of this run. */
  @Test
  void whatWasAppendedIsToldAndLeftOut() throws Exception {
    Path whole = folder.resolve("whole.jsonl");
    List<Entry> written = write(whole, oneOfEach());
    List<String> lines = new ArrayList<>(Files.readAllLines(whole));
    lines.add("{\"n\":15}");

    RunRecord read = readLines(lines);

    assertThat(read.entries()).isEqualTo(written);
    assertThat(read.flaws()).hasSize(1);
  }

  @Test
  void anEditedLineNeedsMoreThanItsOwnCheckValue() throws Exception {
    Path whole = folder.resolve("whole.jsonl");
    write(whole, oneOfEach());
    // The same lines as another record's: each chain is sound, but not across.
    Path other = folder.resolve("other.jsonl");
    List<Event> events = new ArrayList<>(oneOfEach());
    events.set(1, new Event.Cautioned("motion", "another", "yes"));
    write(other, events);
    List<String> mixed = new ArrayList<>(Files.readAllLines(whole).subList(0, 5));
    mixed.addAll(Files.readAllLines(other).subList(5, 14));

    assertThat(readLines(mixed).entries()).hasSize(5);
    assertThat(readLines(mixed).flaws().get(0)).contains("line 6").contains("check value");
  }

  private RunRecord readLines(List<String> lines) throws IOException, RecordReader.NotARecord {
    Path file = folder.resolve("changed.jsonl");
    Files.writeString(file, String.join("\n", lines) + "\n", StandardCharsets.UTF_8);
    return RecordReader.read(file);
  }

  private static List<Entry> write(Path file, List<Event> events) throws IOException {
    VirtualClock clock = new VirtualClock(START);
    List<Entry> written = new ArrayList<>();
    try (FileJournal journal = FileJournal.create(file, clock)) {
      for (Event event : events) {
        clock.waitUntil(clock.nanos() + 1_234_567);
        written.add(journal.write(event));
      }
    }
    return written;
  }
}
