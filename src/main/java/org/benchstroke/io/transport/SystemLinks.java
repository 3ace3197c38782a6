package org.benchstroke.io.transport;

import org.benchstroke.core.clock.Deadline;

/** Opens links through the operating system. Stateless. */
public final class SystemLinks implements LinkOpener {
  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    if (endpoint instanceof Endpoint.Tcp tcp) {
      return TcpLink.open(tcp, deadline);
    }
    return SerialLink.open((Endpoint.Serial) endpoint);
  }
}
