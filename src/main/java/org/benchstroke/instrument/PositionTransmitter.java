package org.benchstroke.instrument;

import org.benchstroke.clock.Deadline;
import org.benchstroke.quantity.Position;

/** Role: reads the unit's own position feedback. The runner's thread owns it. */
public interface PositionTransmitter {
  Reading<Position> read(Deadline deadline) throws InstrumentException;
}
