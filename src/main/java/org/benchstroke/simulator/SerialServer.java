package org.benchstroke.simulator;

import java.io.IOException;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.SystemLinks;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Serves one line on a serial port at the line's speed. Where the port vanishes, as an adapter does
 * that is unplugged, the instruments live on and are heard again once it is back. One thread
 * serves, any may close.
 */
final class SerialServer implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SerialServer.class);
  private static final long LOOK_UP_NANOS = 1_000_000_000L;
  private static final long RETRY_NANOS = 200_000_000L;

  private final SystemClock wall = SystemClock.realTime();
  private final SerialPlace place;
  private final long beforeAnswerNanos;
  private volatile ByteLink link;
  private volatile boolean closing;

  private SerialServer(SerialPlace place, long beforeAnswerNanos) throws LinkException {
    this.place = place;
    this.beforeAnswerNanos = beforeAnswerNanos;
    this.link = port();
  }

  /** Opens the port. */
  static SerialServer open(SerialPlace place, long beforeAnswerNanos) throws LinkException {
    return new SerialServer(place, beforeAnswerNanos);
  }

  private ByteLink port() throws LinkException {
    return new SystemLinks().open(place.farEnd(), Deadline.in(wall, LOOK_UP_NANOS));
  }

  /** Carries bytes between the port and who answers until closed. */
  void serve(Answers answers) {
    try {
      PacedWire wire = wire();
      while (!closing) {
        try {
          serveOnce(wire, answers);
        } catch (IOException e) {
          reopen(e);
          wire = wire();
        }
      }
    } catch (InterruptedException e) {
      LOG.debug("{} is served no more", place.farEnd().text());
    }
  }

  private PacedWire wire() {
    return new PacedWire(link, place.written().settings(), beforeAnswerNanos, wall);
  }

  private void reopen(IOException why) throws InterruptedException {
    if (!closing) {
      LOG.warn("{}; it is served again when it is back", why.getMessage());
    }
    link.close();
    while (!closing) {
      try {
        link = port();
        return;
      } catch (LinkException e) {
        wall.waitUntil(wall.nanos() + RETRY_NANOS);
      }
    }
  }

  private void serveOnce(PacedWire wire, Answers answers) throws IOException, InterruptedException {
    byte[] heard;
    try {
      heard = wire.hear(Deadline.in(wall, LOOK_UP_NANOS));
    } catch (LinkException e) {
      if (e.kind() == LinkException.Kind.PORT_GONE) {
        throw e;
      }
      return;
    }
    answers.to(heard, wire::say);
  }

  /** Who answers, with nothing, at once or bit by bit. */
  interface Answers {
    void to(byte[] request, Sender sender) throws IOException, InterruptedException;
  }

  /** Sends what it is given. */
  interface Sender {
    void send(byte[] bytes) throws IOException, InterruptedException;
  }

  @Override
  public void close() {
    closing = true;
    link.close();
  }
}
