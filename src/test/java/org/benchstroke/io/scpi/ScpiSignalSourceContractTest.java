package org.benchstroke.io.scpi;

import java.time.Instant;
import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.contract.SignalSourceContract;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;

class ScpiSignalSourceContractTest implements SignalSourceContract {
  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  private final FakeScpiBox box = new FakeScpiBox();
  private final FakePeer peer = new FakePeer(clock, box::answer);
  private final ScpiSignalSource source =
      new ScpiSignalSource(
          "source", new ScpiLine(peer, Replay.ENDPOINT, clock), Channels.milliamps(0.001, 0, 24));

  @Override
  public VirtualClock clock() {
    return clock;
  }

  @Override
  public FakePeer peer() {
    return peer;
  }

  @Override
  public Instrument instrument() {
    return source;
  }

  @Override
  public SignalSource role() {
    return source;
  }

  @Override
  public OptionalDouble truth() {
    return box.truth();
  }

  @Override
  public void jam() {
    box.jam();
  }
}
