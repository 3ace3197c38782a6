package org.benchstroke.io.line;

import java.nio.file.Path;
import java.time.Instant;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.io.transport.Replay;

/** The instruments of the demo bench on an invented device in virtual time. */
final class LineRig {
  static final int SOURCE = 0;
  static final int INPUT = 1;
  private static final Path BENCH = Path.of("demo-data/benches/line-bench.toml");

  final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  final FakeLineBox box = new FakeLineBox();
  final FakePeer peer = new FakePeer(clock, box::answer);
  final LineInstrument instrument;

  LineRig(int which) {
    instrument = instrument(which, peer, clock);
  }

  static LineInstrument instrument(int which, LinkOpener links, VirtualClock clock) {
    InstrumentSpec spec = spec(which);
    return new LineInstrument(
        spec.name(),
        new TextLine(links, Replay.ENDPOINT, clock),
        spec.talk(LineWords.class).orElseThrow(),
        spec.channels(),
        SignalRange.FOUR_TO_TWENTY);
  }

  static InstrumentSpec spec(int which) {
    try {
      return BenchFileReader.read(BENCH).instruments().get(which);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }
}
