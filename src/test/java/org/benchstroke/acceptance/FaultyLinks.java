package org.benchstroke.acceptance;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/**
 * Simulated links with the faults that no simulation file scripts: a connection that takes no
 * request at all, a converter on the way that keeps an answer, and answers with wrong contents,
 * which a file would have to describe byte by byte. All others belong in {@link Scripted} faults.
 * Tests also listen to requests here. The clock's thread only.
 */
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

    /** The connection breaks before the request is out. */
    record Broken() implements Fault {}

    /**
     * The reply comes late, and a converter on the way keeps it over closing and opening.
     *
     * @param nanos by so much
     */
    record Kept(long nanos) implements Fault {}

    /** Other bytes come than were sent. */
    record Changed(UnaryOperator<byte[]> reply) implements Fault {}
  }

  /** Decides what goes wrong. */
  interface Weather {
    /** What becomes of a request that is sent now. */
    Fault at(Endpoint endpoint, long nanos, byte[] request);
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
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
      broken |= fault instanceof Fault.Broken;
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
      waiting = now instanceof Fault.Changed changed ? changed.reply().apply(came) : came;
      if (now instanceof Fault.Kept kept) {
        waitingFrom += kept.nanos();
        keeping.put(endpoint(), this);
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
