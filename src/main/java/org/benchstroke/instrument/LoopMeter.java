package org.benchstroke.instrument;

import org.benchstroke.clock.Deadline;
import org.benchstroke.quantity.Current;

/** Role: measures the current that really flows in the signal loop. The runner's thread owns it. */
public interface LoopMeter {
  Reading<Current> read(Deadline deadline) throws InstrumentException;
}
