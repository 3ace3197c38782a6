package org.benchstroke.io.transport;

import org.benchstroke.core.clock.Deadline;

/** A link whose every exchange is written down. */
final class CapturedLink implements ByteLink {
  /** A look whether something is waiting takes this long: less than a look would see nothing. */
  private static final long SHORTEST_LOOK_NANOS = 1_000_000L;

  private final ByteLink link;
  private final TranscriptWriter writer;
  private boolean closed;

  CapturedLink(ByteLink link, TranscriptWriter writer) {
    this.link = link;
    this.writer = writer;
  }

  @Override
  public Endpoint endpoint() {
    return link.endpoint();
  }

  @Override
  public void send(byte[] bytes, Deadline deadline) throws LinkException {
    try {
      link.send(bytes, deadline);
      writer.sent(bytes);
    } catch (LinkException e) {
      throw failed(e);
    }
  }

  @Override
  public int receive(byte[] buffer, int offset, int length, Deadline deadline)
      throws LinkException {
    try {
      int count = link.receive(buffer, offset, length, deadline);
      writer.came(buffer, offset, count);
      return count;
    } catch (LinkException e) {
      throw failed(e);
    }
  }

  /** By receiving: what is thrown away belongs in the transcript. */
  @Override
  public int drain(long quietNanos, Deadline deadline) throws LinkException {
    long look = Math.max(quietNanos, SHORTEST_LOOK_NANOS);
    byte[] scrap = new byte[256];
    int thrown = 0;
    while (true) {
      Deadline quiet = Deadline.inWall(deadline.clock(), look);
      try {
        int count = link.receive(scrap, 0, scrap.length, quiet);
        writer.came(scrap, 0, count);
        thrown += count;
      } catch (LinkException e) {
        if (e.kind() == LinkException.Kind.NO_REPLY) {
          return thrown;
        }
        throw failed(e);
      }
      if (deadline.passed()) {
        throw new LinkException(
            LinkException.Kind.NO_REPLY, endpoint().text() + " does not stop talking");
      }
    }
  }

  private LinkException failed(LinkException e) {
    switch (e.kind()) {
      case NO_REPLY -> writer.silence();
      case PORT_GONE -> writer.gone();
    }
    return e;
  }

  @Override
  public void close() {
    link.close();
    synchronized (this) {
      if (closed) {
        return;
      }
      closed = true;
    }
    writer.closed();
  }
}
