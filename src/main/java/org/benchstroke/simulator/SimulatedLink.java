package org.benchstroke.simulator;

import java.util.Arrays;
import java.util.function.LongSupplier;
import org.benchstroke.clock.Deadline;
import org.benchstroke.clock.VirtualClock;
import org.benchstroke.transport.ByteLink;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.LinkException;

/**
 * One connection on the virtual clock. Sending takes half an exchange, at whose end the instrument
 * acts; its answer arrives another half later. A fault of the link belongs in a {@link ByteSession}
 * around the instrument's.
 */
final class SimulatedLink implements ByteLink {
  private final Endpoint endpoint;
  private final ByteSession session;
  private final VirtualClock clock;
  private final LongSupplier halfNanos;
  private byte[] arriving = new byte[0];
  private long arrivesAt;
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
    int before = arriving.length;
    arriving = Arrays.copyOf(arriving, before + answer.length);
    System.arraycopy(answer, 0, arriving, before, answer.length);
    arrivesAt = clock.nanos() + halfNanos.getAsLong();
  }

  @Override
  public int receive(byte[] buffer, int offset, int length, Deadline deadline)
      throws LinkException {
    if (closed || (arriving.length == 0 && session.closed())) {
      throw gone();
    }
    if (arriving.length == 0 || arrivesAt > deadline.atNanos()) {
      clock.waitUntil(deadline.atNanos());
      throw new LinkException(
          LinkException.Kind.NO_REPLY, "nothing came from " + endpoint.text() + " in time");
    }
    clock.waitUntil(arrivesAt);
    int count = Math.min(length, arriving.length);
    System.arraycopy(arriving, 0, buffer, offset, count);
    arriving = Arrays.copyOfRange(arriving, count, arriving.length);
    return count;
  }

  @Override
  public int drain(long quietNanos, Deadline deadline) throws LinkException {
    if (closed) {
      throw gone();
    }
    boolean inTime = arriving.length > 0 && arrivesAt <= clock.nanos() + quietNanos;
    if (inTime) {
      clock.waitUntil(arrivesAt);
    }
    int thrown = inTime ? arriving.length : 0;
    clock.waitUntil(clock.nanos() + quietNanos);
    if (inTime) {
      arriving = new byte[0];
    }
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
}
