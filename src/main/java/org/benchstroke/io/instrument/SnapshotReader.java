package org.benchstroke.io.instrument;

import java.util.Set;
import org.benchstroke.core.clock.Deadline;

/** Reads several roles of one instrument in as few exchanges as it can. The runner's thread. */
public interface SnapshotReader {
  /** The roles that a snapshot has a reading of. */
  Set<Role> roles();

  Snapshot take(Deadline deadline) throws InstrumentException;
}
