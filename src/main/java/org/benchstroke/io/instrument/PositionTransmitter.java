package org.benchstroke.io.instrument;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Position;

/** Role: reads the unit's own position feedback. The runner's thread owns it. */
public interface PositionTransmitter {
  Reading<Position> read(Deadline deadline) throws InstrumentException;
}
