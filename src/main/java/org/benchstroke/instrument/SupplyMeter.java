package org.benchstroke.instrument;

import org.benchstroke.clock.Deadline;
import org.benchstroke.quantity.Voltage;

/** Role: measures the supply's voltage at the unit's terminals. The runner's thread owns it. */
public interface SupplyMeter {
  Reading<Voltage> read(Deadline deadline) throws InstrumentException;
}
