package org.benchstroke.io.instrument;

import java.util.Map;
import org.benchstroke.core.clock.Deadline;

/** Role: reads the unit's switches, all at one instant. The runner's thread owns it. */
public interface SwitchReader {
  /** True means made. Holds exactly the switches that are wired. */
  Reading<Map<LimitSwitch, Boolean>> read(Deadline deadline) throws InstrumentException;
}
