package org.benchstroke.io.instrument;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;

/** Role: measures the current that really flows in the signal loop. The runner's thread owns it. */
public interface LoopMeter {
  Reading<Current> read(Deadline deadline) throws InstrumentException;
}
