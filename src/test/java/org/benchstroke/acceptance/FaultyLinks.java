package org.benchstroke.acceptance;

import java.util.Arrays;
import java.util.function.UnaryOperator;
import org.benchstroke.clock.Deadline;
import org.benchstroke.clock.VirtualClock;
import org.benchstroke.transport.ByteLink;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.LinkException;
import org.benchstroke.transport.LinkOpener;

/** Simulated links with faults put between them and the drivers. The clock's thread only. */
final class FaultyLinks implements LinkOpener {
  private final LinkOpener sound;
  private final VirtualClock clock;
  private final Weather weather;

  FaultyLinks(LinkOpener sound, VirtualClock clock, Weather weather) {
    this.sound = sound;
    this.clock = clock;
    this.weather = weather;
  }

  /** What becomes of one exchange. */
  sealed interface Fault {
    /** Nothing goes wrong. */
    record None() implements Fault {}

    /**
     * The reply comes late.
     *
     * @param nanos by so much
     */
    record Late(long nanos) implements Fault {}

    /** The request arrives, its reply never does. */
    record Lost() implements Fault {}

    /** The connection breaks before the request is out. */
    record Broken() implements Fault {}

    /** Other bytes come than were sent. */
    record Changed(UnaryOperator<byte[]> reply) implements Fault {}
  }

  /** Decides what goes wrong. */
  interface Weather {
    /** What becomes of a request that is sent now. */
    Fault at(Endpoint endpoint, long nanos, byte[] request);

    /** Whether the port can't be reached at all. */
    default boolean down(Endpoint endpoint, long nanos) {
      return false;
    }
  }

  /** Whether a Modbus request asks for the position. */
  static boolean asksPosition(byte[] request) {
    return request.length == 12 && request[6] == 1 && request[7] == 4;
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    if (weather.down(endpoint, clock.nanos())) {
      throw new LinkException(
          LinkException.Kind.PORT_GONE,
          "cannot connect to " + endpoint.text() + ": Connection refused");
    }
    return new Link(sound.open(endpoint, deadline));
  }

  private final class Link implements ByteLink {
    private final ByteLink inner;
    private Fault fault = new Fault.None();
    private byte[] waiting = {};
    private long waitingFrom;
    private boolean broken;

    Link(ByteLink inner) {
      this.inner = inner;
    }

    @Override
    public Endpoint endpoint() {
      return inner.endpoint();
    }

    @Override
    public void send(byte[] bytes, Deadline deadline) throws LinkException {
      fault = weather.at(endpoint(), clock.nanos(), bytes.clone());
      broken |= fault instanceof Fault.Broken || weather.down(endpoint(), clock.nanos());
      requireThere();
      inner.send(bytes, deadline);
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      requireThere();
      if (waiting.length == 0) {
        fetch(deadline);
      }
      if (waitingFrom > deadline.atNanos()) {
        throw silence(deadline);
      }
      clock.waitUntil(waitingFrom);
      int count = Math.min(length, waiting.length);
      System.arraycopy(waiting, 0, buffer, offset, count);
      waiting = Arrays.copyOfRange(waiting, count, waiting.length);
      return count;
    }

    private void fetch(Deadline deadline) throws LinkException {
      byte[] whole = new byte[4096];
      int count = inner.receive(whole, 0, whole.length, deadline);
      byte[] came = Arrays.copyOf(whole, count);
      Fault now = fault;
      fault = new Fault.None();
      waitingFrom = clock.nanos();
      if (now instanceof Fault.Lost) {
        throw silence(deadline);
      } else if (now instanceof Fault.Late late) {
        waitingFrom += late.nanos();
        waiting = came;
      } else if (now instanceof Fault.Changed changed) {
        waiting = changed.reply().apply(came);
      } else {
        waiting = came;
      }
      if (waiting.length == 0) {
        throw silence(deadline);
      }
    }

    @Override
    public int drain(long quietNanos, Deadline deadline) throws LinkException {
      requireThere();
      int thrown = 0;
      if (waiting.length > 0 && waitingFrom <= clock.nanos() + quietNanos) {
        thrown = waiting.length;
        waiting = new byte[0];
      }
      return thrown + inner.drain(quietNanos, deadline);
    }

    @Override
    public void close() {
      inner.close();
    }

    private LinkException silence(Deadline deadline) {
      clock.waitUntil(deadline.atNanos());
      return new LinkException(
          LinkException.Kind.NO_REPLY, "nothing came from " + endpoint().text() + " in time");
    }

    private void requireThere() throws LinkException {
      if (broken) {
        throw new LinkException(
            LinkException.Kind.PORT_GONE, "the link to " + endpoint().text() + " is gone: reset");
      }
    }
  }
}
