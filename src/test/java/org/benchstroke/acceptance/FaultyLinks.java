package org.benchstroke.acceptance;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
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
  private final Map<Endpoint, Link> keeping = new HashMap<>();

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

    /** From now on nothing gets through either way, and nobody says so, until it is opened anew. */
    record HalfOpen() implements Fault {}

    /**
     * The reply comes byte by byte.
     *
     * @param nanos between two of them
     */
    record Drip(long nanos) implements Fault {}

    /**
     * The reply comes late, and a converter on the way keeps it over closing and opening.
     *
     * @param nanos by so much
     */
    record Kept(long nanos) implements Fault {}

    /** The reply to the request before comes once more, and only then this one's. */
    record Behind() implements Fault {}

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
    Link fresh = new Link(sound.open(endpoint, deadline));
    Link before = keeping.remove(endpoint);
    if (before != null) {
      fresh.waiting = before.waiting;
      fresh.waitingFrom = before.waitingFrom;
    }
    return fresh;
  }

  private final class Link implements ByteLink {
    private final ByteLink inner;
    private Fault fault = new Fault.None();
    private byte[] waiting = {};
    private long waitingFrom;
    private boolean broken;
    private boolean deaf;
    private long dripNanos;
    private byte[] lastReply = {};
    private byte[] behind = {};

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
      deaf |= fault instanceof Fault.HalfOpen;
      dripNanos = 0;
      requireThere();
      if (!deaf) {
        inner.send(bytes, deadline);
      }
    }

    @Override
    public int receive(byte[] buffer, int offset, int length, Deadline deadline)
        throws LinkException {
      requireThere();
      if (deaf) {
        throw silence(deadline);
      }
      if (waiting.length == 0 && behind.length > 0) {
        waiting = behind;
        behind = new byte[0];
      } else if (waiting.length == 0) {
        fetch(deadline);
      }
      if (waitingFrom > deadline.atNanos()) {
        throw silence(deadline);
      }
      clock.waitUntil(waitingFrom);
      int count = Math.min(length, dripNanos > 0 ? 1 : waiting.length);
      waitingFrom += dripNanos;
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
      byte[] before = lastReply;
      lastReply = came;
      if (now instanceof Fault.Lost) {
        throw silence(deadline);
      } else if (now instanceof Fault.Kept kept) {
        waitingFrom += kept.nanos();
        waiting = came;
        keeping.put(endpoint(), this);
      } else if (now instanceof Fault.Drip drip) {
        dripNanos = drip.nanos();
        waiting = came;
      } else if (now instanceof Fault.Behind) {
        waiting = before;
        behind = came;
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
      thrown += behind.length;
      behind = new byte[0];
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
