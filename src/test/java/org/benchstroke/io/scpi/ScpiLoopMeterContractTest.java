package org.benchstroke.io.scpi;

import java.time.Instant;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.contract.LoopMeterContract;
import org.benchstroke.io.transport.FakePeer;
import org.benchstroke.io.transport.Replay;

class ScpiLoopMeterContractTest implements LoopMeterContract {
  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);
  private final FakeScpiBox box = new FakeScpiBox();
  private final FakePeer peer = new FakePeer(clock, box::answer);
  private final ScpiMeter<Current> meter =
      ScpiMeter.loop(
          "loop meter",
          new ScpiLine(peer, Replay.ENDPOINT, clock),
          Channels.milliamps(0.0001, ends()[0], ends()[1]));

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
    return meter;
  }

  @Override
  public LoopMeter role() {
    return meter::read;
  }

  @Override
  public void truth(double value) {
    box.measures(value);
  }

  @Override
  public double[] ends() {
    return new double[] {0.0, 30.0};
  }
}
