package org.benchstroke.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.MemoryJournal;
import org.benchstroke.record.RunFault;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulatedLinks;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.tests.ProcedureReader;
import org.junit.jupiter.api.Test;

/** After a lost link on a simulated bench, on the virtual clock. */
class RecoveryTest {
  private static final Path UNIT = Path.of("simulators/healthy-b.toml");
  private static final Path PROCEDURE = Path.of("demo-data/procedures/short-acceptance.toml");
  private static final List<Endpoint> PORTS =
      List.of(BuiltInBench.SOURCE, BuiltInBench.LOOP_METER, BuiltInBench.MODBUS);

  /** As in the unit type's practice; a last look began before the end of the wait. */
  private static final double RECOVERY_SECONDS = 10.0;

  private static final double LAST_LOOK_SECONDS = 3.0;

  @Test
  void whereAllAnswerTheSafeSignalIsEnough() throws RunEnded {
    Rig rig = new Rig("");
    rig.recover();
    assertThat(rig.safe()).extracting(Event.MadeSafe::confirmed).containsExactly(true);
    assertThat(rig.events(Event.Checked.class)).isEmpty();
    assertThat(rig.events(Event.Faulted.class)).isEmpty();
    rig.assertSafe();
  }

  /** Whoever was away, and for how long: the run goes on with the safe signal, and not before. */
  @Test
  void whoeverComesBackInTimeIsWaitedFor() throws RunEnded {
    for (long seed = 1; seed <= 60; seed++) {
      Noise noise = new Noise(seed);
      Endpoint away = PORTS.get((int) (seed % PORTS.size()));
      double seconds = 4.5 + 4.0 * noise.symmetric();
      Rig rig = new Rig("");
      rig.outage.unplug(away, seconds);
      double waited = rig.recover();
      assertThat(waited).as("seed %d", seed).isBetween(seconds, seconds + LAST_LOOK_SECONDS);
      List<Event.MadeSafe> safe = rig.safe();
      assertThat(safe.get(0).confirmed())
          .as("seed %d", seed)
          .isEqualTo(!away.equals(BuiltInBench.SOURCE));
      assertThat(safe.get(safe.size() - 1).confirmed()).as("seed %d", seed).isTrue();
      assertThat(rig.events(Event.Checked.class))
          .as("seed %d", seed)
          .singleElement()
          .satisfies(
              e -> {
                assertThat(e.check()).isEqualTo("recovery");
                assertThat(e.detail()).contains("all instruments answer again");
              });
      rig.assertSafe();
    }
  }

  /** The wait asks again and again, the record is told once. */
  @Test
  void aFaultOfTheWaitIsInTheRecordOnce() throws RunEnded {
    Rig rig = new Rig("");
    rig.outage.unplug(BuiltInBench.LOOP_METER, 8.0);
    rig.recover();
    assertThat(rig.events(Event.Faulted.class))
        .extracting(Event.Faulted::fault, Event.Faulted::instrument)
        .containsExactly(tuple(RunFault.PORT_GONE, "loop meter"));
  }

  @Test
  void whoeverStaysAwayEndsTheRun() {
    for (Endpoint away : PORTS) {
      Rig rig = new Rig("");
      rig.outage.unplug(away, 1000.0);
      RunEnded ended = catchThrowableOfType(RunEnded.class, rig::recover);
      assertThat(ended.how()).isEqualTo(RunEnded.How.FAULT);
      assertThat(ended).hasMessageContainingAll("the cable was kicked", "not back within", "gone");
      assertThat(ended).hasMessageContaining(away.text());
      assertThat(rig.seconds()).isBetween(RECOVERY_SECONDS, RECOVERY_SECONDS + LAST_LOOK_SECONDS);
      assertThat(rig.events(Event.Checked.class)).isEmpty();
    }
  }

  /** A connection that hangs does not come back by itself; the others are left as they are. */
  @Test
  void whoeverKeepsSilentIsOpenedAnew() throws RunEnded {
    for (Endpoint hung : PORTS) {
      Rig rig = new Rig("");
      rig.recover();
      rig.outage.hang(hung);
      assertThat(rig.recover()).isLessThan(RECOVERY_SECONDS);
      assertThat(rig.outage.opened(hung)).as(hung.text()).isGreaterThan(1);
      rig.assertSafe();
    }
  }

  @Test
  void anotherInstrumentThatAnswersEndsTheRun() {
    Rig rig = new Rig("900202");
    rig.outage.unplug(BuiltInBench.LOOP_METER, 3.0);
    RunEnded ended = catchThrowableOfType(RunEnded.class, rig::recover);
    assertThat(ended.how()).isEqualTo(RunEnded.How.FAULT);
    assertThat(ended).hasMessageContainingAll("loop meter", "another instrument", "900202");
    assertThat(rig.seconds()).isBetween(3.0, 3.0 + LAST_LOOK_SECONDS);
  }

  @Test
  void aStopIsHeardDuringTheWait() {
    Rig rig = new Rig("");
    rig.outage.unplug(BuiltInBench.MODBUS, 1000.0);
    rig.clock.follow(
        nanos -> {
          if (nanos >= 4_000_000_000L) {
            rig.stop.stop("enough");
          }
        });
    RunEnded ended = catchThrowableOfType(RunEnded.class, rig::recover);
    assertThat(ended.how()).isEqualTo(RunEnded.How.STOPPED);
    assertThat(ended).hasMessage("enough");
    assertThat(rig.seconds()).isBetween(4.0, 4.0 + LAST_LOOK_SECONDS);
  }

  /** A bench whose links can fail. */
  private static final class Rig implements Spectator {
    private final List<Event> events = new ArrayList<>();
    private final VirtualClock clock = new VirtualClock(Instant.parse("2026-06-01T08:00:00Z"));
    private final StopSwitch stop = new StopSwitch();
    private final SimulatedBench unit;
    private final Outage outage;
    private final Recovery recovery;

    /**
     * A new bench.
     *
     * @param exchanged serial number that the bench file has otherwise; empty if none is
     */
    Rig(String exchanged) {
      try {
        Simulation simulation = SimulationReader.read(UNIT);
        unit = SimulatedBench.of(simulation);
        outage = new Outage(SimulatedLinks.on(unit, clock), clock);
        String text = unit.benchToml(Map.of(), 1.0);
        BenchFile found = BenchFileReader.read(TomlDocument.parse("bench.toml", text));
        String written = exchanged.isEmpty() ? text : text.replace(exchanged, "111111");
        BenchFile file = BenchFileReader.read(TomlDocument.parse("bench.toml", written));
        RunPlan plan =
            new RunPlan(
                file,
                simulation.unitType(),
                ProcedureReader.read(PROCEDURE),
                List.of(),
                "SIM-1",
                "virtual",
                "none",
                "benchstroke test");
        Bench bench =
            BenchAssembly.of(found, simulation.unitType(), outage, clock, Operator.NOBODY);
        RunLog log = new RunLog(new MemoryJournal(clock), clock, List.of(this));
        recovery = new Recovery(plan, bench, clock, log, new ProgressLine(log, 100.0), stop);
      } catch (FileMistakes e) {
        throw new IllegalStateException(e.getMessage(), e);
      }
    }

    @Override
    public void happened(Entry entry) {
      events.add(entry.event());
    }

    @Override
    public void progressed(Progress progress) {
      assertThat(progress.state()).isEqualTo("link lost");
    }

    /** Returns how long it took, s. */
    double recover() throws RunEnded {
      double from = seconds();
      recovery.await(new TestVoid("the cable was kicked"), recovery.begin());
      return seconds() - from;
    }

    double seconds() {
      return clock.nanos() / 1e9;
    }

    List<Event.MadeSafe> safe() {
      return events(Event.MadeSafe.class);
    }

    <E extends Event> List<E> events(Class<E> kind) {
      return events.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    void assertSafe() {
      assertThat(unit.truth().loopMilliamps()).isCloseTo(4.0, within(0.02));
    }
  }
}
