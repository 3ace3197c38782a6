package org.benchstroke.io.line;

import java.util.OptionalDouble;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.contract.SignalSourceContract;
import org.benchstroke.io.transport.FakePeer;

class LineSignalSourceContractTest implements SignalSourceContract {
  private final LineRig rig = new LineRig(LineRig.SOURCE);
  private final SignalSource role = rig.instrument.signalSource().orElseThrow();

  @Override
  public VirtualClock clock() {
    return rig.clock;
  }

  @Override
  public FakePeer peer() {
    return rig.peer;
  }

  @Override
  public Instrument instrument() {
    return rig.instrument;
  }

  @Override
  public SignalSource role() {
    return role;
  }

  @Override
  public OptionalDouble truth() {
    return rig.box.truth();
  }

  @Override
  public void jam() {
    rig.box.jam();
  }
}
