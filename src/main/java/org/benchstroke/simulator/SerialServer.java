package org.benchstroke.simulator;

import java.util.function.Supplier;
import org.benchstroke.clock.Deadline;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.transport.ByteLink;
import org.benchstroke.transport.LinkException;
import org.benchstroke.transport.SystemLinks;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Serves one line on a serial port at the line's speed. One thread serves, any may close. */
final class SerialServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SerialServer.class);
  private static final long LOOK_UP_NANOS = 1_000_000_000L;

  private final SystemClock wall = SystemClock.realTime();
  private final ByteLink link;
  private final PacedWire wire;
  private volatile boolean closing;

  private SerialServer(SerialPlace place, long beforeAnswerNanos) throws LinkException {
    this.link = new SystemLinks().open(place.farEnd(), Deadline.in(wall, LOOK_UP_NANOS));
    this.wire = new PacedWire(link, place.written().settings(), beforeAnswerNanos, wall);
  }

  /** Opens the port. */
  static SerialServer open(SerialPlace place, long beforeAnswerNanos) throws LinkException {
    return new SerialServer(place, beforeAnswerNanos);
  }

  /** Carries bytes between the port and the session until closed, or until the port is gone. */
  void serve(Supplier<ByteSession> sessions, Answers answers) {
    try {
      ByteSession session = sessions.get();
      while (!closing) {
        session = session.closed() ? sessions.get() : session;
        serveOnce(session, answers);
      }
    } catch (LinkException e) {
      if (!closing) {
        LOG.warn("{}; this line is served no more", e.getMessage());
      }
    } catch (InterruptedException e) {
      LOG.debug("{} is served no more", link.endpoint().text());
    }
  }

  private void serveOnce(ByteSession session, Answers answers)
      throws LinkException, InterruptedException {
    byte[] heard;
    try {
      heard = wire.hear(Deadline.in(wall, LOOK_UP_NANOS));
    } catch (LinkException e) {
      if (e.kind() == LinkException.Kind.PORT_GONE) {
        throw e;
      }
      return;
    }
    wire.say(answers.to(session, heard));
  }

  /** Who lets a session answer. */
  interface Answers {
    byte[] to(ByteSession session, byte[] request);
  }

  @Override
  public void close() {
    closing = true;
    link.close();
  }
}
