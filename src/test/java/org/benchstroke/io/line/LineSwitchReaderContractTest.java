package org.benchstroke.io.line;

import java.util.EnumSet;
import java.util.Set;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.SwitchReader;
import org.benchstroke.io.instrument.contract.SwitchReaderContract;
import org.benchstroke.io.transport.FakePeer;

class LineSwitchReaderContractTest implements SwitchReaderContract {
  private final LineRig rig = new LineRig(LineRig.INPUT);
  private final SwitchReader role = rig.instrument.switchReader().orElseThrow();

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
  public SwitchReader role() {
    return role;
  }

  @Override
  public Set<LimitSwitch> wired() {
    return EnumSet.allOf(LimitSwitch.class);
  }

  @Override
  public void truth(Set<LimitSwitch> made) {
    rig.box.made(made);
  }
}
