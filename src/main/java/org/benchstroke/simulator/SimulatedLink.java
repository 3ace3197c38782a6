package org.benchstroke.simulator;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.LongSupplier;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;

/**
 * One connection on the virtual clock. Sending takes half an exchange, at whose end the instrument
 * acts; its answer arrives another half later, or as much later and in the pieces that the session
 * says, but never before an earlier one. A fault of the link belongs in a {@link ByteSession}
 * around the instrument's.
 */
final class SimulatedLink implements ByteLink {
  private final Endpoint endpoint;
  private final ByteSession session;
  private final VirtualClock clock;
  private final LongSupplier halfNanos;
  private final Deque<Answer> arriving = new ArrayDeque<>();
  private boolean closed;

  SimulatedLink(
      Endpoint endpoint, ByteSession session, VirtualClock clock, LongSupplier halfNanos) {
    this.endpoint = endpoint;
    this.session = session;
    this.clock = clock;
    this.halfNanos = halfNanos;
  }

  @Override
  public Endpoint endpoint() {
    return endpoint;
  }

  @Override
  public void send(byte[] bytes, Deadline deadline) throws LinkException {
    if (closed || session.closed()) {
      throw gone();
    }
    clock.waitUntil(clock.nanos() + halfNanos.getAsLong());
    byte[] answer = session.feed(bytes);
    // Drawn whether there is an answer or not: what is asked alone decides all later times.
    long half = halfNanos.getAsLong();
    if (answer.length > 0) {
      long at = clock.nanos() + half + session.delayNanos();
      long before = arriving.isEmpty() ? at : arriving.getLast().at;
      at = Math.max(at, before);
      for (byte[] piece : session.pieces(answer)) {
        arriving.add(new Answer(piece, at));
        at += session.pauseNanos();
      }
    }
  }

  @Override
  public int receive(byte[] buffer, int offset, int length, Deadline deadline)
      throws LinkException {
    if (closed || (arriving.isEmpty() && session.closed())) {
      throw gone();
    }
    if (arriving.isEmpty() || arriving.getFirst().at > deadline.atNanos()) {
      clock.waitUntil(deadline.atNanos());
      throw new LinkException(
          LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
    }
    clock.waitUntil(arriving.getFirst().at);
    int count = 0;
    while (count < length && !arriving.isEmpty() && arriving.getFirst().at <= clock.nanos()) {
      Answer answer = arriving.getFirst();
      count += answer.take(buffer, offset + count, length - count);
      if (answer.taken()) {
        arriving.removeFirst();
      }
    }
    return count;
  }

  @Override
  public int drain(long quietNanos, Deadline deadline) throws LinkException {
    if (closed) {
      throw gone();
    }
    int thrown = 0;
    while (!arriving.isEmpty() && arriving.getFirst().at <= clock.nanos() + quietNanos) {
      Answer answer = arriving.removeFirst();
      clock.waitUntil(answer.at);
      thrown += answer.bytes.length - answer.from;
    }
    clock.waitUntil(clock.nanos() + quietNanos);
    return thrown;
  }

  @Override
  public void close() {
    closed = true;
  }

  private LinkException gone() {
    return new LinkException(
        LinkException.Kind.PORT_GONE,
        "the link to "
            + endpoint.text()
            + " is gone: "
            + (closed ? "it was closed" : "the other side closed the connection"));
  }

  /** What is under way, and when it arrives. */
  private static final class Answer {
    private final byte[] bytes;
    private final long at;
    private int from;

    private Answer(byte[] bytes, long at) {
      this.bytes = bytes;
      this.at = at;
    }

    private int take(byte[] buffer, int offset, int length) {
      int count = Math.min(length, bytes.length - from);
      System.arraycopy(bytes, from, buffer, offset, count);
      from += count;
      return count;
    }

    private boolean taken() {
      return from == bytes.length;
    }
  }
}
