package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.setup.FieldKey;
import org.benchstroke.setup.SetUp;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.StepKey;
import org.benchstroke.simulator.practice.SetUpHands;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A set-up with its file, and what a run of the same job makes of it. */
class SettingUpTest {
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");
  private static final Path SIMULATION = Path.of("simulators/healthy-b.toml");
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;

  @TempDir Path folder;

  private Path procedure;
  private int begun;

  @BeforeEach
  void write() throws Exception {
    procedure = Files.writeString(folder.resolve("brief.toml"), BRIEF);
  }

  private SetUpRequest request(String serial) {
    return new SetUpRequest(
        Optional.of(SIMULATION),
        Optional.empty(),
        Optional.empty(),
        serial,
        "Ann",
        "4711",
        folder,
        Optional.empty(),
        OptionalDouble.empty());
  }

  /** By simulated hands, up to a step; the display says something else of one fact. */
  private Path setUp(String serial, StepKey until, FieldKey fact, String says) throws Exception {
    SettingUp settingUp = SettingUp.of(request(serial), "test");
    Instant at = START.plusSeconds(60L * begun++);
    try (Ground ground =
            settingUp.ground(bench -> new VirtualClock(at), new StopSwitch(), warning -> {});
        SettingUp.Begun one = settingUp.begin(ground)) {
      SetUp setUp = one.setUp();
      SetUpHands hands = new SetUpHands(ground.inProcess().orElseThrow());
      hands.says(fact, says);
      SetUpState state = setUp.state();
      while (state.ended().isEmpty() && (until == StepKey.READY || state.step().key() != until)) {
        ground.clock().waitUntil(setUp.dueNanos());
        state = setUp.look();
        Optional<SetUpAnswer> answer = hands.work(state);
        if (answer.isPresent()) {
          state = setUp.answer(state.number(), answer.get());
          hands.supply(state);
        }
      }
      return one.record();
    }
  }

  private Session session(String serial) throws Exception {
    return Session.of(
        new RunRequest(
            Optional.of(SIMULATION),
            Optional.empty(),
            Optional.empty(),
            procedure,
            serial,
            "Ann",
            "4711",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            folder,
            Optional.empty(),
            OptionalDouble.empty()),
        "test");
  }

  private Outcome run(String serial, Operator operator) throws Exception {
    Session session = session(serial);
    StopSwitch stop = new StopSwitch();
    Instant at = START.plusSeconds(3600);
    try (Ground ground = session.ground(bench -> new VirtualClock(at), stop, warning -> {})) {
      return session.run(ground, operator, List.of(), stop, record -> {});
    }
  }

  @Test
  void theNextRunOfTheJobTakesItOver() throws Exception {
    Path file = setUp("S-1", StepKey.READY, FieldKey.SOFTWARE, "2.4");
    assertThat(file.getFileName().toString()).isEqualTo("20260601-080000-S-1.set-up");
    RunRecord own = RecordReader.read(file);
    assertThat(own.flaws()).isEmpty();
    Outcome outcome = run("S-1", new Agrees());
    RunRecord record = RecordReader.read(outcome.files().record());
    Event.SetUp told = record.events(Event.SetUp.class).findFirst().orElseThrow();
    assertThat(told.record()).isEqualTo(file.getFileName().toString());
    assertThat(told.sha256()).isEqualTo(own.digest().orElseThrow().sha256());
    assertThat(told.steps()).isEqualTo(own.events(Event.SetUpStep.class).toList());
    Reports.write(outcome.files());
    assertThat(Files.readString(outcome.files().report()))
        .contains("Set-up before the test")
        .contains("End switch, closed")
        .doesNotContain("NOT AS ORDERED");
    assertThat(Files.readString(outcome.files().json())).contains("\"set_up\"");
    // The file is no attempt at the unit.
    assertThat(session("S-1").earlierAttempts()).isEqualTo(1);
    // Another order, another job.
    assertThat(run("S-2", new Agrees()).files().record())
        .satisfies(
            other -> assertThat(RecordReader.read(other).events(Event.SetUp.class)).isEmpty());
  }

  @Test
  void whatIsNotAsOrderedIsAskedBeforeAnythingMoves() throws Exception {
    setUp("S-1", StepKey.READY, FieldKey.DEAD_BAND_PCT, "1.5");
    Agrees agrees = new Agrees();
    Outcome outcome = run("S-1", agrees);
    assertThat(agrees.asked).containsSubsequence(Caution.MATING, Caution.AS_NOTED, Caution.MOTION);
    assertThat(outcome.result().how().text()).isEqualTo("complete");
    assertThat(
            RecordReader.read(outcome.files().record())
                .events(Event.Cautioned.class)
                .map(Event.Cautioned::id))
        .contains("as noted");
    Agrees refuses = new Agrees(Caution.AS_NOTED);
    assertThat(run("S-1", refuses).result().how().text()).isEqualTo("stopped");
    assertThat(refuses.asked).doesNotContain(Caution.MOTION);
    assertThat(refuses.shown)
        .contains("dead band on the unit's display: noted is 1.5 %, ordered is 0.5 %");
  }

  @Test
  void whatMustAgreeRefusesTheRun() throws Exception {
    setUp("S-1", StepKey.READY, FieldKey.DIRECTION, "reverse");
    WrongRequest refused = catchThrowableOfType(WrongRequest.class, () -> run("S-1", new Agrees()));
    assertThat(refused)
        .hasMessageContaining("direction on the unit's display: noted is reverse")
        .hasMessageContaining("must_agree");
    // Put right and noted anew, it runs.
    setUp("S-1", StepKey.READY, FieldKey.DIRECTION, "direct");
    assertThat(run("S-1", new Agrees()).result().how().text()).isEqualTo("complete");
  }

  @Test
  void oneThatWasKilledIsReadableAndDoesNotCount() throws Exception {
    Path killed = setUp("S-1", StepKey.TO_OPEN, FieldKey.SOFTWARE, "2.4");
    RunRecord record = RecordReader.read(killed);
    assertThat(record.flaws()).isEmpty();
    assertThat(record.events(Event.SetUpStep.class).map(Event.SetUpStep::step))
        .contains("closed_switch", "closed_stop")
        .doesNotContain("to_open");
    assertThat(session("S-1").warnings())
        .anySatisfy(said -> assertThat(said).contains("was not finished (interrupted)"));
    // Torn in the middle of its last line.
    byte[] bytes = Files.readAllBytes(killed);
    Files.write(killed, Arrays.copyOf(bytes, bytes.length - 9));
    assertThat(RecordReader.read(killed).events(Event.SetUpStep.class)).isNotEmpty();
  }

  /** Agrees to all but some, and remembers what was asked and shown. */
  private static final class Agrees implements Operator {
    private final List<Caution> asked = new ArrayList<>();
    private final List<Caution> refused;
    private String shown = "";

    Agrees(Caution... refused) {
      this.refused = List.of(refused);
    }

    @Override
    public Answer answer(Question question) {
      Caution caution = question.warning().orElseThrow();
      asked.add(caution == Caution.MOTION_BY_RELAY ? Caution.MOTION : caution);
      question.shownWith().ifPresent(echo -> shown += echo);
      return refused.contains(caution) ? Answer.no() : new Answer.Yes("test");
    }

    @Override
    public void countDown() {
      // Nobody is near a simulated unit.
    }
  }
}
