package org.benchstroke.io.scpi;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;
import java.time.Instant;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;

/** Replies of an SCPI source: what it says is believed as a number, or is one of the errors. */
class ScpiReplyFuzz {
  @FuzzTest
  void answer(FuzzedDataProvider data) {
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    FakePeer peer = new FakePeer(clock, sent -> data.consumeBytes(data.consumeInt(0, 300)));
    ScpiSignalSource source =
        new ScpiSignalSource(
            "source",
            new ScpiLine(peer, Replay.ENDPOINT, clock),
            Channels.milliamps(0.001, 0.0, 24.0));
    for (int i = 0; i < 4; i++) {
      Deadline soon = Deadline.in(clock, 500_000_000L);
      try {
        switch (data.consumeInt(0, 2)) {
          case 0 -> source.identify(soon);
          case 1 -> source.apply(Current.ofMilliamps(12.0), soon);
          default -> source.release(soon);
        }
      } catch (InstrumentException told) {
        if (told.getMessage() == null || told.getMessage().isBlank()) {
          throw new AssertionError("an error without words", told);
        }
      }
    }
  }
}
