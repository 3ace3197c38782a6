package org.benchstroke.io.instrument;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Voltage;

/** Role: measures the supply's voltage at the unit's terminals. The runner's thread owns it. */
public interface SupplyMeter {
  Reading<Voltage> read(Deadline deadline) throws InstrumentException;
}
