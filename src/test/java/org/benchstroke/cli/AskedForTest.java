package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
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
      person.awaitShown(SCAN);
      person.type("\n");
      person.awaitShown(SCAN, 2);
      person.type(" QT/0042 \n");
      person.awaitShown("Order: ");
      person.type("4711\n");
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
