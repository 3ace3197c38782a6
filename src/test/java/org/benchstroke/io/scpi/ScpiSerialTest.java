package org.benchstroke.io.scpi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Arrays;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.SystemLinks;
import org.benchstroke.simulator.BuiltInBench;
import org.benchstroke.simulator.ByteSession;
import org.benchstroke.simulator.SimulatedBench;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A simulated source on the far end of a serial cable. */
class ScpiSerialTest {
  private final SystemClock clock = SystemClock.realTime();

  @TempDir private Path folder;

  private Deadline in(long millis) {
    return Deadline.inWall(clock, millis * 1_000_000L);
  }

  /** Answers until its port is closed or gone. */
  private void serve(ByteLink far, ByteSession session) {
    byte[] buffer = new byte[256];
    try {
      while (true) {
        int count = far.receive(buffer, 0, buffer.length, in(60_000));
        far.send(session.feed(Arrays.copyOf(buffer, count)), in(1000));
      }
    } catch (LinkException ended) {
      far.close();
    }
  }

  private Thread instrument(PtyPair pair, SimulatedBench bench) throws LinkException {
    ByteLink far = new SystemLinks().open(pair.far(), in(1000));
    ByteSession session = bench.connect(BuiltInBench.SOURCE);
    Thread thread = new Thread(() -> serve(far, session), "instrument");
    thread.setDaemon(true);
    thread.start();
    return thread;
  }

  @Test
  void setsReadsBackLosesThePortAndFindsItAgain() throws Exception {
    SimulatedBench bench = SimulatedBench.of(VirtualBench.simulation("healthy-b"));
    try (PtyPair pair = PtyPair.in(folder)) {
      Thread serving = instrument(pair, bench);
      ScpiSignalSource source =
          new ScpiSignalSource(
              "source",
              new ScpiLine(new SystemLinks(), pair.near(), clock),
              Channels.milliamps(0.001, 0.0, 24.0));
      source.connect(in(5000));
      assertThat(source.identify(in(5000))).isPresent();
      assertThat(source.apply(Current.ofMilliamps(12.0), in(5000)).value().milliamps())
          .isCloseTo(12.0, within(1e-6));
      pair.pull();
      serving.join();
      InstrumentException gone =
          catchThrowableOfType(
              InstrumentException.class, () -> source.apply(Current.ofMilliamps(4.0), in(5000)));
      assertThat(gone.kind()).isEqualTo(Kind.PORT_GONE);
      assertThat(gone).hasMessageContaining("source at " + pair.near().text());
      pair.plugIn();
      instrument(pair, bench);
      assertThat(source.apply(Current.ofMilliamps(8.0), in(5000)).value().milliamps())
          .isCloseTo(8.0, within(1e-6));
      source.release(in(5000));
      source.disconnect();
    }
  }
}
