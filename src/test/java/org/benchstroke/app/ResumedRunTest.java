package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.jobs.Attempt;
import org.benchstroke.jobs.Job;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.simulator.practice.SimulatedHands;
import org.benchstroke.unit.MeasureKind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A run is killed at any instant, and another goes on with it at the end of a test. */
@Timeout(300)
class ResumedRunTest {
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");
  private static final Duration LATER = Duration.ofMinutes(40);
  private static final Path SIMULATION = Path.of("simulators/healthy-b.toml");
  private static final String TESTS =
      """
      kind = "procedure"
      format = 1
      name = "Four tests"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 3
      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["lost"]
      """;

  @TempDir Path folder;

  private Path procedure;

  @BeforeEach
  void write() throws Exception {
    procedure = Files.writeString(folder.resolve("tests.toml"), TESTS);
  }

  private Session session(String serial, Optional<Event.Job> job, Optional<Path> resume)
      throws Exception {
    RunRequest request =
        new RunRequest(
            Optional.of(SIMULATION),
            Optional.empty(),
            Optional.empty(),
            procedure,
            serial,
            "Ann",
            "4711",
            job,
            Optional.empty(),
            Optional.empty(),
            resume,
            folder.resolve("records"),
            Optional.empty(),
            OptionalDouble.empty());
    return Session.of(request, "test");
  }

  private Path run(Instant at, Optional<Path> resume) throws Exception {
    Session session = session("S-1", Optional.empty(), resume);
    StopSwitch stop = new StopSwitch();
    try (Ground ground = session.ground(bench -> new VirtualClock(at), stop, warning -> {})) {
      return session
          .run(ground, SimulatedHands.AGREES, List.of(), stop, record -> {})
          .files()
          .record();
    }
  }

  private Path killed(Path whole, int bytes) throws Exception {
    return Files.write(whole, Arrays.copyOf(Files.readAllBytes(whole), bytes));
  }

  private static int endOf(Path record, String test) throws Exception {
    String text = Files.readString(record);
    int ended =
        text.indexOf(
            "\"test\":\"" + test + "\"",
            text.indexOf("\"kind\":\"test_ended\"", text.indexOf("\"test\":\"" + test + "\"")));
    return text.substring(0, text.indexOf('\n', ended) + 1).getBytes(StandardCharsets.UTF_8).length;
  }

  private static JudgedRun judged(Path record) throws Exception {
    return Reports.judge(record);
  }

  private static List<Optional<Double>> values(JudgedRun run, MeasureKind kind) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind)
        .map(m -> m.value())
        .toList();
  }

  private static List<String> begun(List<Entry> entries) {
    return entries.stream()
        .map(Entry::event)
        .filter(Event.TestBegan.class::isInstance)
        .map(Event.TestBegan.class::cast)
        .map(b -> b.test() + " " + b.attempt())
        .toList();
  }

  @Test
  void wholeTestsAreTakenOverAndJudgedWithTheOthers() throws Exception {
    Path record = run(START, Optional.empty());
    JudgedRun uninterrupted = judged(record);
    assertThat(uninterrupted.passed()).isTrue();
    Path killed = killed(record, endOf(record, "travel error") + 3000);
    byte[] bytes = Files.readAllBytes(killed);
    RunRecord before = RecordReader.read(killed);
    assertThat(judged(killed).complete()).isFalse();

    Path resumed = run(START.plus(LATER), Optional.of(killed));

    RunRecord after = RecordReader.read(resumed);
    Event.Resumed from = after.events(Event.Resumed.class).findFirst().orElseThrow();
    assertThat(from.record()).isEqualTo(killed.getFileName().toString());
    assertThat(from.sha256())
        .isEqualTo(HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes)));
    int first = after.entries().stream().map(Entry::event).toList().indexOf(from) + 1;
    List<Entry> copied = after.entries().subList(first, first + from.lines());
    for (int i = 0; i < copied.size(); i++) {
      Entry was = before.entries().get(i + 1);
      Entry is = copied.get(i);
      assertThat(new Entry(was.number(), is.nanos(), is.utc(), is.step(), is.event()))
          .isEqualTo(was);
    }
    List<Entry> own = after.entries().subList(first + from.lines(), after.entries().size());
    assertThat(begun(own)).containsExactly("exercise 2", "signal loss 1");
    assertThat(own.get(0).nanos())
        .isGreaterThanOrEqualTo(
            copied.get(copied.size() - 1).nanos() + Duration.ofMinutes(20).toNanos());

    JudgedRun judged = judged(resumed);
    assertThat(judged.passed()).as(judged.reason()).isTrue();
    for (MeasureKind kind : List.of(MeasureKind.TRAVEL_ERROR, MeasureKind.STROKE_TIME_OPENING)) {
      assertThat(values(judged, kind)).isNotEmpty().isEqualTo(values(uninterrupted, kind));
    }
    assertThat(Files.readAllBytes(killed)).isEqualTo(bytes);
    assertThat(after.flaws()).isEmpty();

    Job job =
        Job.of(List.of(Attempt.of(killed, judged(killed)), Attempt.of(resumed, judged))).get(0);
    assertThat(job.attempts()).hasSize(2);
    assertThat(job.notWhole())
        .extracting(Attempt::keeping)
        .containsExactly(Attempt.Keeping.INTERRUPTED);
    assertThat(job.asFound().orElseThrow().record()).isEqualTo(resumed);
    Reports.write(new RecordFiles(resumed));
    assertThat(new RecordFiles(resumed).report())
        .content()
        .contains("Goes on with the interrupted run")
        .contains(from.sha256());
    assertThat(new RecordFiles(resumed).json()).content().contains("\"resumed\"");
  }

  /** Wherever it is killed: it is refused, or what comes of it is whole. */
  @Test
  void whereverItIsKilledNothingHalfIsTakenOver() throws Exception {
    Path whole = run(START, Optional.empty());
    byte[] bytes = Files.readAllBytes(whole);
    int stroke = endOf(whole, "stroke time");
    Random random = new Random(3108);
    int opening = Files.readString(whole).indexOf('\n') + 1;
    for (int i = 0; i < 12; i++) {
      int at = opening + random.nextInt(bytes.length - opening - 200);
      Path killed = killed(Files.write(folder.resolve("records/killed.jsonl"), bytes), at);
      if (at < stroke) {
        assertThatThrownBy(() -> run(START.plus(LATER), Optional.of(killed)))
            .isInstanceOf(WrongRequest.class)
            .hasMessage(
                "--resume: "
                    + killed
                    + ": can't be gone on with: no test is whole in it; run again without"
                    + " --resume");
      } else {
        JudgedRun judged = judged(run(START.plus(LATER), Optional.of(killed)));
        assertThat(judged.verdict())
            .as("killed at byte %d: %s", at, judged.reason())
            .isEqualTo(Word.PASS);
        assertThat(judged.complete()).isTrue();
      }
    }
  }

  /** What was taken over once can be taken over again. */
  @Test
  void aResumedRunThatIsKilledIsResumed() throws Exception {
    Path record = run(START, Optional.empty());
    Path first = killed(record, endOf(record, "stroke time") + 500);
    Path second = run(START.plus(LATER), Optional.of(first));
    RunRecord all = RecordReader.read(second);
    long lines = all.entries().size();
    List<String> kept = Files.readAllLines(second).subList(0, (int) lines * 9 / 10);
    Files.writeString(second, String.join("\n", kept) + "\n");
    Path third = run(START.plus(LATER).plus(LATER), Optional.of(second));
    assertThat(judged(third).passed()).as(judged(third).reason()).isTrue();
    assertThat(RecordReader.read(third).events(Event.Resumed.class)).hasSize(2);
  }

  private void refused(Session session, Path record, Instant now, String why) {
    assertThatThrownBy(() -> ResumedRun.of(record, session.plan(), now))
        .isInstanceOf(WrongRequest.class)
        .hasMessageStartingWith("--resume: " + record + ": can't be gone on with: ")
        .hasMessageContaining(why);
  }

  @Test
  void whatIsNotTheSameIsRefused() throws Exception {
    Path whole = run(START, Optional.empty());
    Instant now = START.plus(LATER);
    Optional<Path> none = Optional.empty();
    Session same = session("S-1", Optional.empty(), none);
    refused(same, whole, now, "it was not interrupted");
    refused(same, folder.resolve("none.jsonl"), now, "no such file");
    Path killed = killed(whole, endOf(whole, "travel error"));
    assertThat(ResumedRun.of(killed, same.plan(), now).whole()).containsExactlyInAnyOrder(1, 2);
    refused(same, killed, now.plus(Duration.ofHours(25)), "not of the last 24 hours");
    refused(same, killed, START.minus(Duration.ofHours(25)), "not of the last 24 hours");
    refused(
        session("S-2", Optional.empty(), none), killed, now, "serial number S-1 and order 4711");
    Event.Job warm = new Event.Job("", Map.of(Event.Job.TEMPERATURE, 30.0));
    refused(session("S-1", Optional.of(warm), none), killed, now, "--ambient-c");
    Files.writeString(procedure, TESTS.replace("cycles = 3", "cycles = 4"));
    refused(session("S-1", Optional.empty(), none), killed, now, "the procedure file");
  }
}
