package org.benchstroke.simulator;

import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.model.Noise;
import org.benchstroke.io.transport.ByteLink;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.LinkOpener;

/**
 * Links to a simulated bench in the same process, on a virtual clock: the unit steps as the clock
 * moves, and each exchange takes a little virtual time. Its instruments are reached at the
 * addresses of their bench file. The clock's thread only.
 */
public final class SimulatedLinks implements LinkOpener {
  private static final double MEAN_HALF_NANOS = 1_000_000.0;
  private static final double SPREAD = 0.3;

  private final SimulatedBench bench;
  private final VirtualClock clock;
  private final Noise noise;

  private SimulatedLinks(SimulatedBench bench, VirtualClock clock) {
    this.bench = bench;
    this.clock = clock;
    this.noise = new Noise(bench.simulation().seed() * 31 + 1);
  }

  /** Lets the bench follow the clock from now on. */
  public static SimulatedLinks on(SimulatedBench bench, VirtualClock clock) {
    long start = clock.nanos();
    clock.follow(nanos -> bench.advanceTo(nanos - start));
    return new SimulatedLinks(bench, clock);
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    if (bench.ports().containsKey(endpoint)) {
      ByteSession session = bench.connect(endpoint);
      if (session.closed()) {
        throw new LinkException(
            LinkException.Kind.PORT_GONE,
            "cannot connect to " + endpoint.text() + ": it is unplugged");
      }
      return new SimulatedLink(endpoint, session, clock, this::halfNanos);
    }
    throw new LinkException(
        LinkException.Kind.PORT_GONE,
        "cannot connect to " + endpoint.text() + ": the simulated bench has no such address");
  }

  /** How long half an exchange takes. */
  private long halfNanos() {
    return Math.round(MEAN_HALF_NANOS * (1.0 + SPREAD * noise.symmetric()));
  }
}
