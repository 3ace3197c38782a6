package org.benchstroke.io.transport;

import org.benchstroke.core.clock.Deadline;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Links of which the log tells every byte, at its level "debug". One thread opens links. */
public final class WireLog implements LinkOpener {
  private static final Logger LOG = LoggerFactory.getLogger(WireLog.class);

  private final LinkOpener links;

  private WireLog(LinkOpener links) {
    this.links = links;
  }

  /** Around these links, where the log wants to know; else these links themselves. */
  public static LinkOpener around(LinkOpener links) {
    return LOG.isDebugEnabled() ? new WireLog(links) : links;
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    try {
      ByteLink link = links.open(endpoint, deadline);
      LOG.debug("{} open", endpoint.text());
      return new Told(link);
    } catch (LinkException e) {
      LOG.debug("{} can't be opened: {}", endpoint.text(), e.getMessage());
      throw e;
    }
  }

  private static final class Told implements ByteLink {
    private final ByteLink link;

    Told(ByteLink link) {
      this.link = link;
    }

    @Override
    public Endpoint endpoint() {
      return link.endpoint();
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      try {
        link.send(bytes, deadline);
        LOG.debug("{} sent {}", name(), TranscriptWriter.text(bytes, 0, bytes.length));
      } catch (LinkException e) {
        throw told(e);
      }
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      try {
        int count = link.receive(buffer, offset, length, deadline);
        LOG.debug("{} came {}", name(), TranscriptWriter.text(buffer, offset, count));
        return count;
      } catch (LinkException e) {
        throw told(e);
      }
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      try {
        int count = link.drain(quietNanos, deadline);
        LOG.debug("{} threw away {} bytes", name(), count);
        return count;
      } catch (LinkException e) {
        throw told(e);
      }
    }

    private String name() {
      return link.endpoint().text();
    }

    private LinkException told(LinkException e) {
      LOG.debug("{} {}", name(), e.getMessage());
      return e;
    }

    @Override
    public void close() {
      link.close();
      LOG.debug("{} closed", name());
    }
  }
}
