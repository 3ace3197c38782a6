package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.procedure.Caution;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Answer;
import org.benchstroke.run.Operator;
import org.benchstroke.run.Question;
import org.junit.jupiter.api.Test;

/** An instrument with a watchdog hears from the program also while a person thinks. */
class WatchdogTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");

  /** The period of the bench file, 0.5 s, and a sample period: who is fed late is fed by then. */
  private static final long LONGEST_NANOS = 750_000_000L;

  private static final long THINKS_NANOS = 20_000_000_000L;
  private static final int FUNCTION = 1;
  private static final int WRITE_REGISTER = 6;
  private static final int ADDRESS = 10;

  private final List<Long> fed = new ArrayList<>();
  private long motionAsked;

  @Test
  void itIsFedWhileAPersonThinks() {
    VirtualBench bench = VirtualBench.with("healthy-b", BENCH);
    bench.weather(this::hear).askedBy(new Thoughtful(bench)).run();

    assertThat(bench.result().how().text()).isEqualTo("complete");
    List<Long> since = fed.stream().filter(t -> t >= motionAsked).toList();
    assertThat(since.get(0) - motionAsked).isLessThanOrEqualTo(LONGEST_NANOS);
    for (int i = 1; i < since.size(); i++) {
      assertThat(since.get(i) - since.get(i - 1))
          .as("feed " + i)
          .isLessThanOrEqualTo(LONGEST_NANOS);
    }
    assertThat(since.get(since.size() - 1) - motionAsked).isGreaterThan(2 * THINKS_NANOS);
  }

  /** What went unheard while a person thought is in the record. */
  @Test
  void aFeedThatFailedMeanwhileIsTold() {
    VirtualBench sound = VirtualBench.with("healthy-b", BENCH);
    sound.askedBy(new Thoughtful(sound)).run();
    String keys = Scripted.during(motionAsked / 1e9, LONGEST_NANOS / 1e9);
    String lost = Scripted.fault("output module", "drop", keys);
    VirtualBench bench = VirtualBench.with(VirtualBench.simulation("healthy-b", lost), BENCH);
    RunRecord record = bench.askedBy(new Thoughtful(bench)).run();
    assertThat(record.events(Event.Faulted.class).map(Event.Faulted::fault))
        .contains(RunFault.NO_REPLY);
    assertThat(record.events(Event.Faulted.class).map(Event.Faulted::instrument))
        .contains("output module");
  }

  /** Hears when the register is written. */
  private FaultyLinks.Fault hear(Endpoint endpoint, long nanos, byte[] request) {
    if (request[FUNCTION] == WRITE_REGISTER && request[3] == ADDRESS) {
      fed.add(nanos);
    }
    return new FaultyLinks.Fault.None();
  }

  /** Needs its time for every caution. */
  private final class Thoughtful implements Operator {
    private final VirtualBench bench;
    private Runnable meanwhile = () -> {};

    Thoughtful(VirtualBench bench) {
      this.bench = bench;
    }

    @Override
    public void whileWaiting(Runnable task) {
      meanwhile = task;
    }

    @Override
    public Answer answer(Question question) {
      Caution caution = question.warning().orElseThrow();
      if (caution == Caution.MOTION || caution == Caution.MOTION_BY_RELAY) {
        motionAsked = bench.clock().nanos();
      }
      long end = bench.clock().nanos() + THINKS_NANOS;
      while (bench.clock().nanos() < end) {
        bench.clock().waitUntil(bench.clock().nanos() + 200_000_000L);
        meanwhile.run();
      }
      if (bench.unit().switchedByHand() && caution != Caution.SIGNAL_LOSS) {
        bench.unit().motorSupply(caution == Caution.MOTION);
      }
      return new Answer.Yes("yes, after some thought");
    }
  }
}
