package org.benchstroke.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CountDownLatch;
import java.util.function.Consumer;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Progress;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.simulator.practice.SimulatedHands;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A run without any terminal, in this process, and whoever watches it. */
@Timeout(120)
class SessionTest {
  private static final Instant START = Instant.parse("2026-06-01T08:00:00Z");
  private static final Path SIMULATION = Path.of("simulators/healthy-b.toml");
  private static final long PATIENCE_NANOS = 2_000_000_000L;
  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 50, 100]
      cycles = 1
      """;

  @TempDir Path folder;

  private final StopSwitch stop = new StopSwitch();
  private Path procedure;
  private int runs;

  @BeforeEach
  void write() throws Exception {
    procedure = Files.writeString(folder.resolve("brief.toml"), BRIEF);
  }

  private Outcome run(OptionalDouble pace, Operator operator, Spectator... watching)
      throws Exception {
    RunRequest request =
        new RunRequest(
            Optional.of(SIMULATION),
            Optional.empty(),
            Optional.empty(),
            procedure,
            "S-1",
            "Ann",
            "none",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Files.createDirectory(folder.resolve("records-" + runs++)),
            Optional.empty(),
            pace);
    Session session = Session.of(request, "test");
    List<Watcher> watchers = new ArrayList<>();
    for (Spectator each : watching) {
      watchers.add(new Watcher("watcher " + watchers.size(), each));
    }
    try (Ground ground = session.ground(bench -> new VirtualClock(START), stop, warning -> {})) {
      RecordFiles files = session.store().fresh("S-1", START);
      return session.run(ground, operator, watchers, stop, files, PATIENCE_NANOS);
    }
  }

  private Outcome run(Spectator... watching) throws Exception {
    return run(OptionalDouble.empty(), SimulatedHands.AGREES, watching);
  }

  private static String text(Outcome outcome) throws Exception {
    return Files.readString(outcome.files().record());
  }

  @Test
  void theSameSeedGivesTheSameRecordWhateverThePace() throws Exception {
    Outcome fast = run();
    Outcome shown = run(OptionalDouble.of(100.0), SimulatedHands.AGREES);
    assertThat(text(shown)).isEqualTo(text(fast));
    JudgedRun judged = Reports.write(fast.files()).run();
    assertThat(judged.record().opened().simulated()).isNotEmpty();
    assertThat(fast.files().report()).content().contains("simulated");
    assertThat(fast.files().json()).isNotEmptyFile();
  }

  /** It takes at least the bench's time by the pace, and the stop does not wait for that. */
  @Test
  void aPaceIsKeptUntilTheStop() throws Exception {
    Stopwatch whole = new Stopwatch();
    Outcome shown = run(OptionalDouble.of(100.0), SimulatedHands.AGREES);
    double bench = read(shown).closed().orElseThrow().wallSeconds();
    assertThat(whole.nanos() / 1e9).isGreaterThan(bench / 100.0);

    Outcome stopped =
        run(
            OptionalDouble.of(0.1),
            SimulatedHands.AGREES,
            (Onlooker) entry -> stop.stop("stopped by the test"));
    assertThat(stopped.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(stopped.result().safe().confirmed() || !stopped.result().sourced()).isTrue();
    assertThat(read(stopped).closed().orElseThrow().how()).isEqualTo("stopped");
  }

  @Test
  void whoBlocksForEverIsLeftOutAndTheRecordIsTheSame() throws Exception {
    CountDownLatch never = new CountDownLatch(1);
    List<Entry> seen = Collections.synchronizedList(new ArrayList<>());
    Outcome alone = run();
    Outcome watched =
        run(
            (Onlooker)
                entry -> {
                  try {
                    never.await();
                  } catch (InterruptedException e) {
                    // As one that does not even heed that.
                    awaitForEver(never);
                  }
                },
            (Onlooker) seen::add);
    assertThat(text(watched)).isEqualTo(text(alone));
    assertThat(watched.result().safe().confirmed()).isTrue();
    assertThat(watched.leftOut())
        .containsExactly("watcher 0 did not see all of the run: it fell too far behind");
    assertThat(seen).isEqualTo(read(watched).entries());
    never.countDown();
  }

  private static void awaitForEver(CountDownLatch latch) {
    while (latch.getCount() > 0) {
      try {
        latch.await();
      } catch (InterruptedException e) {
        // It stays.
      }
    }
  }

  @Test
  void whoFailsIsLeftOutAndTheRecordIsTheSame() throws Exception {
    Outcome alone = run();
    Outcome watched =
        run(
            (Onlooker)
                entry -> {
                  throw new IllegalStateException("a screen that fails");
                });
    assertThat(text(watched)).isEqualTo(text(alone));
    assertThat(watched.leftOut()).singleElement().asString().contains("a screen that fails");
  }

  /** The terminal shows a question after all that led to it. */
  @Test
  void nobodyIsAskedBeforeAllWasSeen() throws Exception {
    List<String> order = Collections.synchronizedList(new ArrayList<>());
    Operator asked =
        question -> {
          order.add("asked " + question.id());
          return SimulatedHands.AGREES.answer(question);
        };
    Outcome outcome =
        run(
            OptionalDouble.empty(),
            asked,
            (Onlooker)
                entry -> {
                  if (entry.event() instanceof Event.Cautioned) {
                    order.add("answered");
                  }
                });
    assertThat(outcome.result().how()).isEqualTo(RunEnded.How.COMPLETE);
    assertThat(order)
        .containsExactly(
            "asked caution", "answered", "asked caution", "answered", "asked motion", "answered");
  }

  /** What is to be run, and for how long, before anyone is asked or anything moves. */
  @Test
  void thePlanIsToldFirst() throws Exception {
    List<Object> told = Collections.synchronizedList(new ArrayList<>());
    Outcome outcome =
        run(
            OptionalDouble.empty(),
            question -> Answer.no(),
            new Spectator() {
              @Override
              public void planned(Expansion plan) {
                told.add(plan);
              }

              @Override
              public void happened(Entry entry) {
                told.add(entry);
              }

              @Override
              public void progressed(Progress progress) {
                told.add(progress);
              }
            });
    assertThat(outcome.result().sourced()).isFalse();
    Expansion plan = (Expansion) told.get(0);
    assertThat(plan.tests())
        .extracting(PlannedTest::name)
        .containsExactly("exercise", "travel error");
    assertThat(plan.tests()).allMatch(test -> !test.actions().isEmpty() && test.seconds() > 0);
    assertThat(plan.seconds())
        .isEqualTo(plan.tests().get(0).seconds() + plan.tests().get(1).seconds());
    assertThat(((Entry) told.get(1)).event()).isInstanceOf(Event.Opened.class);
  }

  private static RunRecord read(Outcome outcome) throws Exception {
    return RecordReader.read(outcome.files().record());
  }

  /** Sees what happened, and nothing else. */
  private interface Onlooker extends Spectator, Consumer<Entry> {
    @Override
    default void happened(Entry entry) {
      accept(entry);
    }

    @Override
    default void progressed(Progress progress) {
      // Only what happened matters.
    }
  }
}
