package org.benchstroke.io.instrument;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;

/** Role: reads the stem's angle by means of its own. The runner's thread owns it. */
public interface AngleReference {
  Reading<Angle> read(Deadline deadline) throws InstrumentException;
}
