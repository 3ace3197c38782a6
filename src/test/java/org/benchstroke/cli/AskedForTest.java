package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.app.RecordStore;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.record.Event;
import org.benchstroke.record.FileJournal;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What no option says is asked at the terminal, as a scanner types it. */
@Timeout(300)
class AskedForTest {
  private static final String SCAN = "Serial number of the unit (scan or type): ";
  private static final String MOVE = "type  move  and Enter.   n = no, stop";
  private static final String GO_ON = "Go on?   y = yes   n = no, stop";

  @TempDir Path folder;

  private Object[] run(String... more) throws Exception {
    Path procedure =
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
    Object[] first = {
      "run",
      "--simulation",
      "simulators/healthy-b.toml",
      "--procedure",
      procedure,
      "--records",
      folder.resolve("records")
    };
    return java.util.stream.Stream.concat(
            java.util.Arrays.stream(first), java.util.Arrays.stream(more))
        .toArray();
  }

  @Test
  void aScanIsTheSerialNumberAndWhatWasTypedBeforeIsNone() throws Exception {
    try (TerminalSession person =
        TerminalSession.at(80, run("--serial", "", "--operator", "Ann"))) {
      person.type("EARLY-1\nEARLY-2\n");
      person.begin();
      say(person, SCAN, 1, "\n");
      say(person, SCAN, 2, " QT/0042 \n");
      say(person, "Order: ", 1, "QT/0042\n");
      person.awaitShown("That is the serial number, scanned again.");
      say(person, "Order: ", 2, "4711\n");
      answer(person, GO_ON, 1, "y");
      answer(person, GO_ON, 2, "y");
      String shown = person.awaitShown(MOVE);
      assertThat(shown.replaceAll("\\s+", " "))
          .containsSubsequence(
              "About to be tested",
              "serial number QT/0042",
              "order 4711",
              "unit type",
              "on loss of signal",
              "operator Ann",
              "THE UNIT WILL MOVE");
      answer(person, MOVE, 1, "move\n");
      person.awaitEnd();
      Path file = ShortRun.recordIn(folder.resolve("records"));
      assertThat(file.getFileName().toString()).endsWith("-QT_0042.jsonl");
      RunRecord record = RecordReader.read(file);
      assertThat(record.opened().serial()).isEqualTo("QT/0042");
      assertThat(record.opened().order()).isEqualTo("4711");
    }
  }

  /** A real bench: nobody gets as far as to be asked for a link. */
  @Test
  void aSixthAttemptIsAllowedByASupervisorOfTheShopOrNotMade() throws Exception {
    Path records = Files.createDirectory(folder.resolve("records"));
    for (int i = 0; i < 5; i++) {
      VirtualClock clock = new VirtualClock(Instant.parse("2026-11-30T09:00:00Z").plusSeconds(i));
      Path file = RecordFiles.fresh(records, "QT-1", clock.utc()).record();
      try (FileJournal journal = FileJournal.create(file, clock)) {
        journal.write(
            new Event.Opened(Event.FORMAT, "test", "", 1.0, "QT-1", "Ann", "4711", "Z", List.of()));
        journal.write(new Event.Closed("stopped", "", 1.0));
      }
    }
    Object[] sixth = {
      "run",
      "--shop",
      "demo-data/shop/shop.toml",
      "--records",
      records,
      "--serial",
      "QT-1",
      "--order",
      "4711",
      "--operator",
      "A. Example"
    };
    String asked = "5 attempts were made at this job. Which supervisor allows one more? ";
    try (TerminalSession person = TerminalSession.at(80, sixth).begin()) {
      say(person, asked, 1, "A. Example\n");
      assertThat(person.awaitEnd()).isEqualTo(2);
      assertThat(person.shown()).contains("is not on the shop's list; on it are C. Instance");
    }
    try (TerminalSession person = TerminalSession.at(80, sixth).begin()) {
      say(person, asked, 1, "C. Instance\n");
      person.awaitShown(GO_ON);
      assertThat(person.shown().replaceAll("\\s+", " "))
          .contains("WARNING: attempt 6 of this job; the fifth");
      answer(person, GO_ON, 1, "n");
      person.awaitEnd();
    }
    Path newest = new RecordStore(records).headings().findFirst().orElseThrow().file();
    RunRecord record = RecordReader.read(newest);
    assertThat(record.label(Label.SUPERVISOR)).isEqualTo("C. Instance");
  }

  /** Types a line once its question was shown for the nth time. */
  private static void say(TerminalSession person, String question, int nth, String line)
      throws Exception {
    person.awaitShown(question, nth);
    person.type(line);
  }

  /** Types until the terminal shows more than the echo of keys that came too early to count. */
  private static void answer(TerminalSession person, String question, int nth, String keys)
      throws Exception {
    person.awaitShown(question, nth);
    int before = person.shown().length();
    while (person
        .shown()
        .substring(before)
        .chars()
        .allMatch(c -> Character.isWhitespace(c) || keys.indexOf(c) >= 0)) {
      int shown = person.shown().length();
      person.type(keys);
      person.awaitMore(shown + keys.length());
    }
  }
}
