package org.benchstroke.instrument.line;

import java.util.EnumSet;
import java.util.Set;
import org.benchstroke.clock.VirtualClock;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.SwitchReader;
import org.benchstroke.instrument.contract.SwitchReaderContract;
import org.benchstroke.transport.FakePeer;

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
