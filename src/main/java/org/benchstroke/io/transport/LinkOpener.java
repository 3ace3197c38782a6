package org.benchstroke.io.transport;

import org.benchstroke.core.clock.Deadline;

/** Opens links: the operating system's, or a simulated bench's in their place. */
public interface LinkOpener {
  /**
   * Opens a link to the endpoint.
   *
   * @throws LinkException {@code PORT_GONE} if it can't be opened by the deadline
   */
  ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException;
}
