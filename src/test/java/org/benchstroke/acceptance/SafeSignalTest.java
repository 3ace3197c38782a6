package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.benchstroke.acceptance.FaultyLinks.Fault;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.StepId;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Progress;
import org.benchstroke.run.Question;
import org.benchstroke.run.RunEnded;
import org.benchstroke.run.Spectator;
import org.benchstroke.simulator.BuiltInBench;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every way out of a run ends with the safe signal, and the record says if it was confirmed. */
class SafeSignalTest {
  private static final double SAFE_MILLIAMPS = 4.0;

  /** The source's own error and step are smaller. */
  private static final double NEAR_MILLIAMPS = 0.005;

  private static final long SECOND = 1_000_000_000L;
  private static final Endpoint SOURCE = BuiltInBench.SOURCE;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "healthy-b",
        "zero-shift",
        "span-error",
        "cam-set-short",
        "wrong-fail-action",
        "loop-resistance-too-high",
        "reversed-action"
      })
  void eachUnitIsLeftSafe(String name) {
    VirtualBench bench = VirtualBench.with(name);
    assertSafe(bench, bench.run());
  }

  static LongStream stopMillis() {
    return LongStream.concat(
        LongStream.rangeClosed(0, 40).map(i -> i * 173),
        LongStream.rangeClosed(0, 45).map(i -> 7_000 + i * 5_137));
  }

  @ParameterizedTest
  @MethodSource("stopMillis")
  void aStopAtAnyMomentEndsSafeWithinASecond(long millis) {
    VirtualBench bench = VirtualBench.with("healthy-b");
    StopAt stop = new StopAt(bench, millis * 1_000_000L);
    RunRecord record = bench.watchedBy(stop).run();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(record.closed().orElseThrow().how()).isEqualTo("stopped");
    assertThat(VirtualBench.judge(record).passed()).isFalse();
    assertThat(bench.clock().nanos() - stop.stoppedAt).isLessThan(SECOND);
    if (record.events(Event.Identified.class).findAny().isEmpty()) {
      assertLeftAlone(bench, record);
    } else {
      assertSafe(bench, record);
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = Caution.class,
      names = {"SESSION", "MATING", "POWER_OFF", "MOTION", "MOTION_BY_RELAY", "SIGNAL_LOSS"})
  void aRefusedCautionEndsTheRun(Caution refused) {
    VirtualBench bench = VirtualBench.with("healthy-b").askedBy(new Refusing(refused));
    if (refused == Caution.POWER_OFF || refused == Caution.MOTION) {
      bench.benchText(SafeSignalTest::withoutMotorRelay);
    }
    RunRecord record = bench.run();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(bench.result().reason()).contains(refused.id());
    assertThat(record.events(Event.Cautioned.class).reduce((first, last) -> last).orElseThrow())
        .satisfies(
            last -> {
              assertThat(last.id()).isEqualTo(refused.id());
              assertThat(last.answer()).isEqualTo("refused");
            });
    assertThat(VirtualBench.judge(record).passed()).isFalse();
    if (refused == Caution.SESSION || refused == Caution.MATING) {
      assertLeftAlone(bench, record);
    } else {
      assertSafe(bench, record);
    }
  }

  static Stream<Throwable> failures() {
    return Stream.of(
        new IllegalStateException("a screen that fails"),
        new StackOverflowError("a screen in rings"));
  }

  @ParameterizedTest
  @MethodSource("failures")
  void aSpectatorThatThrowsIsDetachedAndTheRunGoesOn(Throwable failure) {
    List<Entry> seen = new ArrayList<>();
    VirtualBench bench =
        VirtualBench.with("healthy-b")
            .watchedBy(
                new EachEvent(
                    entry -> {
                      if (entry.number() > 50) {
                        SafeSignalTest.<RuntimeException>throwAny(failure);
                      }
                    }),
                new EachEvent(seen::add));
    RunRecord record = bench.run();

    assertThat(VirtualBench.judge(record).passed()).isTrue();
    assertThat(seen).isEqualTo(record.entries());
    assertSafe(bench, record);
  }

  @ParameterizedTest
  @EnumSource(
      value = Caution.class,
      names = {"MOTION_BY_RELAY", "SIGNAL_LOSS"})
  void evenAnErrorOfTheProgramEndsSafe(Caution at) {
    VirtualBench bench = VirtualBench.with("healthy-b").askedBy(new Breaking(at));
    RunRecord record = bench.run();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("the program failed");
    assertThat(VirtualBench.judge(record).passed()).isFalse();
    assertSafe(bench, record);
  }

  static IntStream failingWrites() {
    int whole = VirtualBench.with("healthy-b").run().entries().size();
    return IntStream.concat(
        IntStream.concat(IntStream.rangeClosed(1, 30), IntStream.rangeClosed(whole - 5, whole)),
        IntStream.iterate(37, n -> n < whole - 5, n -> n + 83));
  }

  @ParameterizedTest
  @MethodSource("failingWrites")
  void aJournalThatFailsEndsTheRun(int nth) {
    VirtualBench bench = VirtualBench.with("healthy-b");
    FailingJournal journal = new FailingJournal(bench.clock(), nth);
    bench.runInto(journal);

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(bench.result().reason()).contains("record can't be written");
    // Nothing is tried again: a line after the lost one would pretend that there was none.
    assertThat(journal.asked).isEqualTo(nth);
    if (nth > 1) {
      JudgedRun run = VirtualBench.judge(journal.kept.record());
      assertThat(run.passed()).isFalse();
      assertThat(run.record().closed()).isEmpty();
    }
    boolean proven =
        nth > 1
            && journal
                .kept
                .record()
                .events(Event.Checked.class)
                .anyMatch(c -> c.check().equals("identity of source"));
    if (proven) {
      assertThat(bench.result().safe().confirmed()).isTrue();
      assertThat(bench.trueLoopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(NEAR_MILLIAMPS));
    } else {
      assertThat(bench.result().safe().confirmed()).isFalse();
      assertThat(bench.trueLoopMilliamps()).isZero();
    }
  }

  /** How a link to the source can be lost. */
  enum Loss {
    SEND_FAILS,
    NO_REPLY,
    REFUSED
  }

  static Stream<Arguments> losses() {
    return Stream.of(Loss.values())
        .flatMap(
            loss ->
                IntStream.of(3, 8, 17, 31, 60, 90, 130, 170)
                    .mapToObj(seconds -> Arguments.of(loss, seconds)));
  }

  @ParameterizedTest
  @MethodSource("losses")
  void aLostSourceIsNotCalledSafe(Loss loss, int seconds) {
    VirtualBench bench = losing("source", loss, seconds);
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isIn(RunEnded.How.FAULT, RunEnded.How.PREFLIGHT_FAILED);
    assertThat(bench.result().safe().confirmed()).isFalse();
    assertThat(bench.result().safe().detail()).contains("not confirmed").contains("source");
    assertThat(lastSafe(run.record())).isEqualTo(bench.result().safe());
    assertThat(run.passed()).isFalse();
    assertThat(run.record().closed().orElseThrow().how()).isNotEqualTo("complete");
  }

  @Test
  void aPositionLinkThatBreaksAndComesBackVoidsTheTestOnly() {
    double asked = Scripted.positionAsked(VirtualBench.with("healthy-b").run(), 60.0);
    String once = Scripted.during(asked, Scripted.ONE_EXCHANGE_SECONDS);
    String breaks = Scripted.fault("position input", "unplug", once);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", breaks));
    JudgedRun run = bench.judge();

    assertThat(run.record().events(Event.TestEnded.class).filter(e -> e.outcome().equals("void")))
        .hasSize(1);
    assertThat(run.record().events(Event.Faulted.class).map(Event.Faulted::fault))
        .containsExactly(RunFault.PORT_GONE);
    assertThat(run.passed()).isTrue();
    assertSafe(bench, run.record());
  }

  @ParameterizedTest
  @EnumSource(Loss.class)
  void aPositionLinkThatStaysAwayEndsTheRunSafe(Loss loss) {
    VirtualBench bench = losing("position input", loss, 60);
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(run.passed()).isFalse();
    assertSafe(bench, run.record());
  }

  @ParameterizedTest
  @ValueSource(strings = {"900101", "900202", "900303"})
  void anotherInstrumentThanTheBenchFileSaysIsNeverUsed(String serial) {
    List<String> told = new ArrayList<>();
    VirtualBench bench =
        VirtualBench.with("healthy-b")
            .benchText(text -> text.replace(serial, "123456"))
            .weather(
                (endpoint, nanos, request) -> {
                  if (endpoint.equals(SOURCE)) {
                    told.add(new String(request, StandardCharsets.US_ASCII));
                  }
                  return new Fault.None();
                });
    JudgedRun run = bench.judge();

    assertThat(bench.result().how()).isEqualTo(RunEnded.How.PREFLIGHT_FAILED);
    assertThat(bench.result().reason()).contains("a different one").contains("123456");
    assertThat(run.passed()).isFalse();
    assertThat(told).isNotEmpty();
    if (serial.equals("900101")) {
      assertThat(told).noneMatch(line -> line.contains("CURR") || line.contains("OUTP"));
      assertLeftAlone(bench, run.record());
    } else {
      // The source is who it must be: whoever else is wrong, the unit is not left as it was found.
      assertSafe(bench, run.record());
    }
  }

  @SuppressWarnings("unchecked")
  private static <T extends Throwable> void throwAny(Throwable failure) throws T {
    throw (T) failure;
  }

  private static void assertSafe(VirtualBench bench, RunRecord record) {
    assertThat(bench.trueLoopMilliamps()).isCloseTo(SAFE_MILLIAMPS, within(NEAR_MILLIAMPS));
    Event.MadeSafe last = lastSafe(record);
    assertThat(last.confirmed()).isTrue();
    assertThat(last.signalMilliamps()).isEqualTo(SAFE_MILLIAMPS);
    assertThat(last).isEqualTo(bench.result().safe());
    assertThat(record.closed()).isPresent();
  }

  private static void assertLeftAlone(VirtualBench bench, RunRecord record) {
    assertThat(bench.trueLoopMilliamps()).isZero();
    assertThat(lastSafe(record).confirmed()).isFalse();
    assertThat(lastSafe(record).detail()).contains("not commanded");
  }

  /** The safe signal is the last thing before the closing line. */
  private static Event.MadeSafe lastSafe(RunRecord record) {
    List<Entry> entries = record.entries();
    assertThat(entries.get(entries.size() - 1).event()).isInstanceOf(Event.Closed.class);
    Event before = entries.get(entries.size() - 2).event();
    assertThat(before).isInstanceOf(Event.MadeSafe.class);
    return (Event.MadeSafe) before;
  }

  private static String withoutMotorRelay(String text) {
    return text.replace(", \"motor power\"", "")
        .replaceAll("\\[instrument\\.motor_power\\]\n.*\n.*\n", "");
  }

  /** A sound unit on a bench that loses an instrument for good. */
  private static VirtualBench losing(String instrument, Loss loss, int fromSeconds) {
    if (loss == Loss.SEND_FAILS) {
      Endpoint where = VirtualBench.addressOf(VirtualBench.with("healthy-b").unit(), instrument);
      return VirtualBench.with("healthy-b")
          .weather(
              (endpoint, nanos, request) ->
                  endpoint.equals(where) && nanos >= fromSeconds * SECOND
                      ? new Fault.Broken()
                      : new Fault.None());
    }
    String kind = loss == Loss.REFUSED ? "unplug" : "drop";
    String lost = Scripted.fault(instrument, kind, Scripted.during(fromSeconds, 100_000.0));
    return VirtualBench.with(VirtualBench.simulation("healthy-b", lost));
  }

  /** Asks for a stop at the first chance after an instant. */
  private static final class StopAt implements Spectator {
    private final VirtualBench bench;
    private final long nanos;
    private long stoppedAt = -1;

    StopAt(VirtualBench bench, long nanos) {
      this.bench = bench;
      this.nanos = nanos;
    }

    @Override
    public void happened(Entry entry) {
      look();
    }

    @Override
    public void progressed(Progress progress) {
      look();
    }

    private void look() {
      if (stoppedAt < 0 && bench.clock().nanos() >= nanos) {
        stoppedAt = bench.clock().nanos();
        bench.stop().stop("stopped by the test");
      }
    }
  }

  private record Refusing(Caution refused) implements Operator {
    @Override
    public Answer answer(Question question) {
      boolean no = question.warning().filter(refused::equals).isPresent();
      return no ? Answer.no() : new Answer.Yes("yes");
    }
  }

  private record Breaking(Caution at) implements Operator {
    @Override
    public Answer answer(Question question) {
      if (question.warning().filter(at::equals).isPresent()) {
        throw new StackOverflowError("as if the program were at fault");
      }
      return new Answer.Yes("yes");
    }
  }

  private record EachEvent(Consumer<Entry> told) implements Spectator {
    @Override
    public void happened(Entry entry) {
      told.accept(entry);
    }

    @Override
    public void progressed(Progress progress) {
      // Only events are of interest.
    }
  }

  /** Keeps what it is given, but fails at one write and at all that follow. */
  private static final class FailingJournal implements Journal {
    private final MemoryJournal kept;
    private final int nth;
    private int asked;

    FailingJournal(BenchClock clock, int nth) {
      this.kept = new MemoryJournal(clock);
      this.nth = nth;
    }

    @Override
    public Entry write(Optional<StepId> step, Event event) throws IOException {
      asked++;
      if (asked >= nth) {
        throw new IOException("no space left on the device");
      }
      return kept.write(step, event);
    }

    @Override
    public void takeOver(List<Entry> earlier) {
      kept.takeOver(earlier);
    }

    @Override
    public long originNanos() {
      return kept.originNanos();
    }

    @Override
    public void close() {
      kept.close();
    }
  }
}
