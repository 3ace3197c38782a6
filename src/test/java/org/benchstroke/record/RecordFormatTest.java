package org.benchstroke.record;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.clock.VirtualClock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What one version of the format holds, and how another is told. */
class RecordFormatTest {
  private static final Pattern KEY = Pattern.compile("\"([^\"\\\\]+)\":");

  @TempDir Path folder;

  private Path record() throws IOException {
    Path file = folder.resolve("record.jsonl");
    StepId step = new StepId(2, 1, 17, 3);
    try (FileJournal journal = FileJournal.create(file, new VirtualClock(Instant.EPOCH))) {
      journal.write(
          new Event.Opened(Event.FORMAT, "benchstroke 9", "", 1.0, "S", "O", "", "Z", List.of()));
      journal.write(Optional.of(step), new Event.Commanded(50.0, 12.0, 12.0, 1L, 2L));
      journal.write(
          Optional.of(step),
          new Event.Rested("travel 50 up", Leg.STAIR, 50.0, "up", 1, true, true, 3L, 4L, 0.05));
      journal.write(new Event.TestEnded(2, "travel error", 1, "complete", ""));
    }
    return file;
  }

  @Test
  void aStepComesBackAsItWasWritten() throws Exception {
    RunRecord read = RecordReader.read(record());
    assertThat(read.flaws()).isEmpty();
    assertThat(read.entries().get(0).step()).isEmpty();
    assertThat(read.entries().get(1).step()).contains(new StepId(2, 1, 17, 3));
    assertThat(read.entries().get(2).step()).contains(new StepId(2, 1, 17, 3));
    assertThat(read.entries().get(3).step()).isEmpty();
    assertThat(Files.readAllLines(record(folder.resolve("again"))).get(1))
        .contains("\"step\":\"2.1.17.3\"");
  }

  private Path record(Path other) throws IOException {
    Files.createDirectories(other);
    return Files.copy(folder.resolve("record.jsonl"), other.resolve("record.jsonl"));
  }

  @Test
  void onlyFourNumbersAreAStep() {
    assertThat(StepId.of("0.1.0.1")).contains(new StepId(0, 1, 0, 1));
    for (String text : List.of("", "1.2.3", "1.2.3.4.5", "1.2.3.-4", "a.1.1.1", "1.2.3.99999999")) {
      assertThat(StepId.of(text)).as(text).isEmpty();
    }
  }

  @Test
  void everyKeyIsSpelledInOneWay() throws Exception {
    for (String line : Files.readAllLines(record())) {
      Matcher key = KEY.matcher(line);
      while (key.find()) {
        assertThat(key.group(1)).matches("[a-z0-9]+(_[a-z0-9]+)*");
      }
    }
  }

  @Test
  void anotherFormatIsRefusedByTheProgramThatWroteIt() throws Exception {
    for (String other : List.of("1", "3")) {
      List<String> lines = changed(0, "\"format\":2", "\"format\":" + other);
      Path file = Files.write(folder.resolve("format-" + other + ".jsonl"), lines);
      assertThatThrownBy(() -> RecordReader.read(file))
          .isInstanceOf(RecordReader.NotARecord.class)
          .hasMessage(
              file
                  + ": can't be read: it is of format "
                  + other
                  + ", and this version reads format 2; judge it with the program that wrote it:"
                  + " benchstroke 9");
      assertThatThrownBy(() -> RecordHeading.read(file))
          .isInstanceOf(RecordReader.NotARecord.class)
          .hasMessageContaining("of format " + other);
    }
  }

  /** The keys of the first line in another spelling: a record of the first format. */
  @Test
  void theFirstFormatIsToldByItsNumberWhateverItsKeys() throws Exception {
    List<String> lines = changed(0, "\"format\":2", "\"format\":1");
    lines.set(0, rechained(lines.get(0).replace("time_scale", "timeScale")));
    Path file = Files.write(folder.resolve("first.jsonl"), lines);
    assertThatThrownBy(() -> RecordReader.read(file)).hasMessageContaining("it is of format 1");
  }

  @Test
  void aKeyThatTheFormatDoesNotHaveIsTold() throws Exception {
    List<String> body = changed(1, "\"body\":{", "\"body\":{\"colour\":\"blue\",");
    RunRecord read = RecordReader.read(Files.write(folder.resolve("body.jsonl"), body));
    assertThat(read.entries()).hasSize(1);
    assertThat(read.flaws().get(0)).contains("line 2").contains("colour");

    List<String> line = changed(1, "\"body\":", "\"mood\":\"good\",\"body\":");
    read = RecordReader.read(Files.write(folder.resolve("line.jsonl"), line));
    assertThat(read.entries()).hasSize(1);
    assertThat(read.flaws().get(0)).contains("line 2").contains("mood");

    List<String> step = changed(1, "\"2.1.17.3\"", "\"travel 50 up\"");
    read = RecordReader.read(Files.write(folder.resolve("step.jsonl"), step));
    assertThat(read.entries()).hasSize(1);
    assertThat(read.flaws().get(0)).contains("line 2").contains("\"travel 50 up\" is not a step");
  }

  @Test
  void aJobWithoutFactsIsReadAsOneThatStatesNone() throws Exception {
    Path file = folder.resolve("job.jsonl");
    Event.Job job = new Event.Job("Invented Pumps", Map.of(), Map.of(Label.TAG, "FV-101"));
    try (FileJournal journal = FileJournal.create(file, new VirtualClock(Instant.EPOCH))) {
      journal.write(
          new Event.Opened(Event.FORMAT, "benchstroke 9", "", 1.0, "S", "O", "", "Z", List.of()));
      journal.write(job);
    }
    assertThat(RecordReader.read(file).events(Event.Job.class)).containsExactly(job);
    List<String> lines = Files.readAllLines(file);
    assertThat(lines.get(1)).contains(",\"facts\":{\"tag\":\"FV-101\"}");
    lines.set(
        1,
        chained(check(lines.get(0)), lines.get(1).replace(",\"facts\":{\"tag\":\"FV-101\"}", "")));
    RunRecord read = RecordReader.read(Files.write(file, lines));
    assertThat(read.flaws()).isEmpty();
    assertThat(read.events(Event.Job.class))
        .containsExactly(new Event.Job("Invented Pumps", Map.of()));
    lines.set(
        1,
        chained(
            check(lines.get(0)), lines.get(1).replace("{}}", "{},\"facts\":{\"serial\":\"S\"}}")));
    assertThat(RecordReader.read(Files.write(file, lines)).flaws().get(0))
        .contains("facts of a job");
  }

  /** The lines of a record with one changed and its check value made anew. */
  private List<String> changed(int at, String from, String to) throws IOException {
    List<String> lines =
        Files.readAllLines(
            Files.exists(folder.resolve("record.jsonl"))
                ? folder.resolve("record.jsonl")
                : record());
    assertThat(lines.get(at)).contains(from);
    String previous = at == 0 ? Chain.START : check(lines.get(at - 1));
    lines.set(at, chained(previous, lines.get(at).replace(from, to)));
    return lines;
  }

  private static String rechained(String line) {
    return chained(Chain.START, line);
  }

  private static String chained(String previous, String line) {
    String unchecked = line.substring(0, line.lastIndexOf(",\"check\":"));
    return unchecked + ",\"check\":\"" + new Chain().next(previous, unchecked) + "\"}";
  }

  private static String check(String line) {
    return line.substring(line.length() - 18, line.length() - 2);
  }
}
