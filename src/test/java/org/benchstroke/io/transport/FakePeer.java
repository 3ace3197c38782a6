package org.benchstroke.io.transport;

import java.util.function.UnaryOperator;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;

/**
 * A peer in virtual time that answers each message by a function, 2 ms later, until it is told to
 * misbehave.
 */
public final class FakePeer implements LinkOpener {
  /** How it behaves from now on. */
  public enum Mood {
    ANSWERS,
    SILENT,
    GARBLED,
    GONE
  }

  private static final long DELAY_NANOS = 2_000_000L;

  private final VirtualClock clock;
  private final UnaryOperator<byte[]> answer;
  private Mood mood = Mood.ANSWERS;
  private int opened;
  private int sent;

  public FakePeer(VirtualClock clock, UnaryOperator<byte[]> answer) {
    this.clock = clock;
    this.answer = answer;
  }

  public void is(Mood now) {
    mood = now;
  }

  /** How often a link was opened. */
  public int opened() {
    return opened;
  }

  /** How many messages have come. */
  public int sent() {
    return sent;
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    if (mood == Mood.GONE) {
      throw gone(endpoint);
    }
    opened++;
    return new Link(endpoint);
  }

  private static LinkException gone(Endpoint endpoint) {
    return new LinkException(LinkException.Kind.PORT_GONE, endpoint.text() + " is gone");
  }

  private final class Link implements ByteLink {
    private final Endpoint endpoint;
    private byte[] waiting = {};

    Link(Endpoint endpoint) {
      this.endpoint = endpoint;
    }

    @Override
    public Endpoint endpoint() {
      return endpoint;
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      sent++;
      switch (mood) {
        case ANSWERS -> waiting = answer.apply(bytes);
        case GARBLED ->
            waiting =
                "\u0001\u0002\u0003\u0004\u0005\u0006\u0007\u0008\n"
                    .getBytes(java.nio.charset.StandardCharsets.US_ASCII);
        case SILENT -> waiting = new byte[0];
        case GONE -> throw gone(endpoint);
      }
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      if (waiting.length == 0) {
        clock.waitUntil(deadline.atNanos());
        throw new LinkException(
            LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
      }
      clock.waitUntil(clock.nanos() + DELAY_NANOS);
      int count = Math.min(length, waiting.length);
      System.arraycopy(waiting, 0, buffer, offset, count);
      waiting = java.util.Arrays.copyOfRange(waiting, count, waiting.length);
      return count;
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) {
      int count = waiting.length;
      waiting = new byte[0];
      clock.waitUntil(clock.nanos() + quietNanos);
      return count;
    }

    @Override
    public void close() {
      waiting = new byte[0];
    }
  }
}
