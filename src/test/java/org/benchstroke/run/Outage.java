package org.benchstroke.run;

import java.util.HashMap;
import java.util.Map;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/** Simulated links, one of which is unplugged or hangs for a time. The clock's thread only. */
final class Outage implements LinkOpener {
  private final LinkOpener sound;
  private final VirtualClock clock;
  private final Map<Endpoint, Integer> opened = new HashMap<>();
  private Endpoint struck = new Endpoint.Tcp("nowhere", 1);
  private long goneUntil;
  private int deafOpening;

  Outage(LinkOpener sound, VirtualClock clock) {
    this.sound = sound;
    this.clock = clock;
  }

  /** Nothing can be sent there, nor a connection opened, until then. */
  void unplug(Endpoint endpoint, double seconds) {
    struck = endpoint;
    goneUntil = clock.nanos() + (long) (seconds * 1e9);
  }

  /** Nothing comes any more by the connection that stands. */
  void hang(Endpoint endpoint) {
    struck = endpoint;
    deafOpening = opened(endpoint);
  }

  int opened(Endpoint endpoint) {
    return opened.getOrDefault(endpoint, 0);
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    requireThere(endpoint);
    int opening = opened.merge(endpoint, 1, Integer::sum);
    return new Watched(sound.open(endpoint, deadline), opening);
  }

  private void requireThere(Endpoint endpoint) throws LinkException {
    if (endpoint.equals(struck) && clock.nanos() < goneUntil) {
      throw new LinkException(LinkException.Kind.PORT_GONE, endpoint.text() + " is unplugged");
    }
  }

  private final class Watched implements ByteLink {
    private final ByteLink inner;
    private final int opening;

    Watched(ByteLink inner, int opening) {
      this.inner = inner;
      this.opening = opening;
    }

    @Override
    public Endpoint endpoint() {
      return inner.endpoint();
    }

    private boolean deaf() {
      return endpoint().equals(struck) && opening == deafOpening;
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      requireThere(endpoint());
      if (!deaf()) {
        inner.send(bytes, deadline);
      }
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      requireThere(endpoint());
      if (deaf()) {
        clock.waitUntil(deadline.atNanos());
        throw new LinkException(LinkException.Kind.NO_REPLY, "nothing came in time");
      }
      return inner.receive(buffer, offset, length, deadline);
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      requireThere(endpoint());
      return inner.drain(quietNanos, deadline);
    }

    @Override
    public void close() {
      inner.close();
    }
  }
}
