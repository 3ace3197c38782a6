package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Journal;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.StepId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A record that holds the sampling makes a gap like any other: the test is begun again. */
class SlowDiskTest {
  private static final long HELD_NANOS = 600_000_000L;

  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "switches"
      creep_deg_per_s = 0.5
      margin_deg = 3
      beyond_pct = 1.5
      cycles = 1
      """;

  private static final String LIMITS = "[limits]\nswitch_error_deg = 1.0\n";

  /** What is being written while the disk is busy, in the middle of a creep past a switch. */
  enum Held {
    COMMAND,
    SAMPLE;

    boolean is(Event event) {
      return switch (this) {
        case COMMAND -> event instanceof Event.Commanded;
        case SAMPLE -> event instanceof Event.Sampled s && s.channel().equals("position");
      };
    }
  }

  @ParameterizedTest
  @EnumSource(Held.class)
  void aTestThatARecordHeldIsBegunAgain(Held held) {
    VirtualBench bench =
        VirtualBench.with("healthy-b")
            .tests(TESTS)
            .unitType(t -> t.replaceAll("(?s)\\[limits].*", "") + LIMITS);
    SlowJournal journal = new SlowJournal(bench.clock(), held::is);
    bench.runInto(journal);

    assertThat(journal.kept.record().events(Event.Faulted.class))
        .singleElement()
        .satisfies(fault -> assertThat(fault.fault()).isEqualTo(RunFault.GAP))
        .satisfies(fault -> assertThat(fault.detail()).contains("no sample for 0.6"));
    assertThat(journal.kept.record().events(Event.TestEnded.class).map(Event.TestEnded::outcome))
        .containsExactly("complete", "void", "complete");
    JudgedRun run = VirtualBench.judge(journal.kept.record());
    assertThat(run.verdict()).isEqualTo(Word.PASS);
  }

  /** Takes its time once: for the hundredth of the events that are meant in the switches test. */
  private static final class SlowJournal implements Journal {
    private final VirtualClock clock;
    private final Predicate<Event> event;
    private final MemoryJournal kept;
    private boolean switches;
    private int seen;

    SlowJournal(VirtualClock clock, Predicate<Event> event) {
      this.clock = clock;
      this.event = event;
      this.kept = new MemoryJournal(clock);
    }

    @Override
    public Entry write(Optional<StepId> step, Event written) {
      Entry entry = kept.write(step, written);
      switches |= written instanceof Event.TestBegan began && began.test().equals("switches");
      if (switches && event.test(written)) {
        seen++;
        if (seen == 100) {
          clock.waitUntil(clock.nanos() + HELD_NANOS);
        }
      }
      return entry;
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
